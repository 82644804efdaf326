"""`python -m trainer` is the command `trainer`."""

from trainer.cli.main import main

main()
