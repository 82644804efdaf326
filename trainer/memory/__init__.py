"""What is remembered and when it is asked again. Pure: days and clocks are arguments."""
