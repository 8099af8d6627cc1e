"""Numbers only: floats in one stated unit, with their sources. Could be lifted out whole."""
