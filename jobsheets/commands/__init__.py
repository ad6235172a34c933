"""What each command of the command line does: options in, one call of `job`, text out, an exit code."""
