"""Section properties of polygons by SymPy's geometry module (exact rational arithmetic), written to
data/published/section-properties.json. SymPy shares no code with the kit. Run: python3 sectionProperties.sympy.py

Polygons: area, centroid, second moments about the centroid. Hollow sections are the outer polygon minus the hole,
moved to a common centroid. Torsion is not in SymPy: those rows are table values, named in the file.
"""
import json
import pathlib
from sympy import Rational as R, __version__
from sympy.geometry import Point, Polygon


def integrals(corners):
    p = Polygon(*[Point(R(x), R(y)) for x, y in corners])
    a = abs(p.area)
    cx, cy = p.centroid.x, p.centroid.y
    ix, iy, ixy = p.second_moment_of_area()
    s = 1 if p.area > 0 else -1
    return a, a * cx, a * cy, s * ix + a * cy**2, s * iy + a * cx**2, s * ixy + a * cx * cy


def properties(outer, holes=()):
    sums = list(integrals(outer))
    for hole in holes:
        sums = [a - b for a, b in zip(sums, integrals(hole))]
    a, sx, sy, jx, jy, jxy = sums
    cx, cy = sx / a, sy / a
    return {
        "areaMm2": float(a),
        "centroidMm": [float(cx), float(cy)],
        "secondMomentXMm4": float(jx - a * cy**2),
        "secondMomentYMm4": float(jy - a * cx**2),
        "productMomentMm4": float(jxy - a * cx * cy),
    }


def box(x0, y0, x1, y1):
    return [(x0, y0), (x1, y0), (x1, y1), (x0, y1)]


ROWS = [
    ("flat bar", {"kind": "flat bar", "widthMm": 150, "thicknessMm": 8}, box(-75, -4, 75, 4), []),
    (
        "rectangular tube",
        {"kind": "rectangular tube", "widthMm": 60, "depthMm": 100, "wallMm": 4},
        box(-30, -50, 30, 50),
        [box(-26, -46, 26, 46)],
    ),
    (
        "channel",
        {"kind": "channel", "depthMm": 120, "flangeMm": 50, "wallMm": 6, "flangeThicknessMm": 9},
        [(0, -60), (50, -60), (50, -51), (6, -51), (6, 51), (50, 51), (50, 60), (0, 60)],
        [],
    ),
    (
        "angle of plates",
        {
            "kind": "plates",
            "plates": [
                {"fromMm": [0, 4], "toMm": [80, 4], "thicknessMm": 8},
                {"fromMm": [3, 8], "toMm": [3, 60], "thicknessMm": 6},
            ],
        },
        [(0, 0), (80, 0), (80, 8), (6, 8), (6, 60), (0, 60)],
        [],
    ),
    (
        "lug outline with a hole",
        {
            "kind": "outline",
            "thicknessMm": 20,
            "cornersMm": [[0, 0], [70, 0], [90, 35], [60, 80], [10, 60]],
            "holesMm": [box(30, 25, 50, 45)],
        },
        [(0, 0), (70, 0), (90, 35), (60, 80), (10, 60)],
        [box(30, 25, 50, 45)],
    ),
]

out = {
    "source": f"SymPy {__version__}, sympy.geometry.Polygon, by test/section/reference/sectionProperties.sympy.py",
    "rows": [{"name": n, "shape": s, **properties(o, h)} for n, s, o, h in ROWS],
    "rectangleTorsion": {
        "source": "S. Timoshenko & J. N. Goodier, Theory of Elasticity, table of torsion of rectangular bars: "
        "J = beta b t^3, tau = T/(alpha b t^2); values from memory, as printed in many handbooks",
        "rows": [
            {"ratio": 1.0, "beta": 0.141, "alpha": 0.208},
            {"ratio": 1.5, "beta": 0.196, "alpha": 0.231},
            {"ratio": 2.0, "beta": 0.229, "alpha": 0.246},
            {"ratio": 3.0, "beta": 0.263, "alpha": 0.267},
            {"ratio": 4.0, "beta": 0.281, "alpha": 0.282},
            {"ratio": 10.0, "beta": 0.312, "alpha": 0.312},
        ],
    },
}
path = pathlib.Path(__file__).parents[3] / "data" / "published" / "section-properties.json"
path.write_text(json.dumps(out, indent=2) + "\n")
