"""Makes the subsets in this folder: python3 subset.py FOLDER_OF_LIBERTINUS STIX_TWO_MATH.woff2

Needs fonttools and brotli.
"""

import sys
from pathlib import Path

from fontTools.subset import main as subset

TEXT = (
    "U+0020-007E,U+00A0-017F,U+02C6,U+02C7,U+02D8-02DD,U+0370-03FF,U+1E9E,U+2002-200A,U+2010-2015,U+2018-201E,"
    "U+2020-2022,U+2026,U+202F,U+2030,U+2032-2034,U+2039,U+203A,U+2044,U+2070-209C,U+20AC,U+2113,U+2116,U+2122,"
    "U+212B,U+2190-2193,U+21D2,U+21D4,U+2202,U+2206,U+220F,U+2211,U+2212,U+2215,U+2219,U+221A,U+221E,U+222B,"
    "U+2248,U+2260,U+2264,U+2265,U+25A0,U+25CB,U+25CF,U+FFFD"
)
SYMBOLS = (
    "U+0020-007E,U+00A0-00FF,U+0131,U+0237,U+02C6,U+02C7,U+02D8-02DD,U+0302,U+0304,U+0305,U+0307,U+0391-03A9,"
    "U+03B1-03D6,U+2009,U+200A,U+2010,U+2013,U+2014,U+2026,U+202F,U+2032-2034,U+203E,U+2061-2064,U+2070-209C,"
    "U+2190-2194,U+21D2,U+21D4,U+2200,U+2202,U+2206,U+2208,U+220F,U+2211-2213,U+2215,U+2219,U+221A,U+221D,U+221E,"
    "U+2220,U+2223,U+2225,U+222B-222E,U+2234,U+2248,U+2260,U+2261,U+2264,U+2265,U+226A,U+226B,U+22C5,"
    "U+2308-230B,U+27E8,U+27E9,U+210E,U+1D400-1D467,U+1D6A4,U+1D6A5,U+1D6E2-1D71B"
)

folder, mathematics = Path(sys.argv[1]), sys.argv[2]
here = Path(__file__).parent
for face in ("Regular", "Italic", "Bold"):
    subset([
        str(folder / f"LibertinusSerif-{face}.otf"), f"--unicodes={TEXT}", "--flavor=woff2", "--no-hinting",
        "--layout-features=kern,liga,lnum,mark,mkmk,locl,ccmp,sups,subs", "--desubroutinize", "--name-IDs=*",
        f"--output-file={here / f'LibertinusSerif-{face}.woff2'}",
    ])
subset([
    mathematics, f"--unicodes={SYMBOLS}", "--flavor=woff2", "--no-hinting",
    "--layout-features=ssty,dtls,flac,kern,mark,mkmk", "--name-IDs=*", f"--output-file={here / 'STIXTwoMath.woff2'}",
])
