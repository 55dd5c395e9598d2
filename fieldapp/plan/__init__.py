"""The choices of a unit turned into dimensions, steps, drawings and the packet."""
