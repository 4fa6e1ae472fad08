"""What `procgen --help` says, word for word as argparse would, without the time that argparse takes to load.

A test holds it against the parser.
"""

HELP = """\
usage: procgen [-h] [--version] COMMAND ...

Engine-rebuild procedures from YAML to cards and a site.

positional arguments:
  COMMAND
    check     read and check everything, write nothing
    make      check, then make the site and the cards
    watch     make again whatever is edited, and serve it on this machine
    trace     where a number comes from, down to the YAML lines
    compare   how a card differs between two families or variants
    add       write a commented file to fill in
    job       verdicts for one engine on the stand
    printed   note which cards were printed, to be reminded of once they
              change
    reprint   which printed cards are superseded, and what changed

options:
  -h, --help  show this help message and exit
  --version   show program's version number and exit
"""
