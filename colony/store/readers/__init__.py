"""Rows become the values that the pure rooms and the acts calculate with; only here."""
