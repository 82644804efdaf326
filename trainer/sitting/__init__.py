"""One stretch of practice as a value. Pure: events in, the next sitting and effects out."""
