"""The door of ``python3 -m workbook``.

Written, like the package's ``__init__``, in what Python 3.7 understands: an old one has to get as
far as the refusal.
"""

import sys

OLDEST = (3, 11)


def main(argv):
    """Run the command `argv` and return its exit status."""
    if sys.version_info < OLDEST:
        sys.stderr.write(
            "The workbook needs Python {}.{} or newer, and this is Python {}.{}.\n".format(
                *(OLDEST + tuple(sys.version_info[:2]))
            )
        )
        return 1
    from workbook.start.command import run

    return run(argv)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
