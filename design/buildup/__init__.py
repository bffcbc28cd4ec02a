"""The build-up under any edge: rings of strips, blocks and segments, skirts, kerf bending, grain."""
