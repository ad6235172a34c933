"""Lets `python -m jobsheets` stand for the command."""

import sys

from jobsheets.cli import main

sys.exit(main())
