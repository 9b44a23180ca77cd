"""Reading: a straightened tag becomes lines, each seen by two independent readers."""
