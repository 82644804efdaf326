"""The one error that a user is meant to read."""


class TrainerError(Exception):
    """Bad input or a state that the user can mend: one sentence, what, where, what to do.

    The command line prints it as one line and exits with 1, the screens show it. Anything
    else that is raised is a bug and keeps its traceback.
    """
