"""The data file. The only place that knows SQL; it knows no chess and no faces."""
