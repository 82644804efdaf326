"""What the desk says at each moment of a sitting, as values. No widgets in here."""
