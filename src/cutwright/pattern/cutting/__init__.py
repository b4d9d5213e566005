"""Cutting paper apart, turning it and letting paper in: slashes, darts turned, flare, lengthening."""
