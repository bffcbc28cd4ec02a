"""The design of a top of any outline, from its job: `build_shaped` composes shapes, trims, build-up and edge."""
