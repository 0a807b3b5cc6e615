"""One day: shape, pose, solve, write down."""
