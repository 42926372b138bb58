"""``python -m tracker``."""

import sys

from tracker.cli.run import main

if __name__ == "__main__":
    sys.exit(main())
