"""WeasyPrint, quicker: each module puts one way of its own in the place of one of WeasyPrint's that takes long, for as
long as the process lives. What comes of it is the same; a test holds each against WeasyPrint's.

None of this is WeasyPrint's public face, so its version is pinned: after another is pinned, look here first.
"""
