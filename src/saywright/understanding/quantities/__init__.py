"""Words → quantities: number, unit, hedge, sign, range, and what a number can be at all."""
