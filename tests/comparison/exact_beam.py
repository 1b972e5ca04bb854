"""A beam solved over the rationals with sympy: the piecewise integration of E I v'''' = -w, written apart from the
project's own method (stiffness of the spans between supports and hinges) so that the two can be compared.

Between all stations where something happens the deflection is a polynomial of degree five whose two highest
coefficients follow from the load; the other four are unknown. The conditions at the stations (continuity, supports,
springs, hinges, jumps of shear force and bending moment) give the linear system. Signs as in the project: loads down
positive, couples counter-clockwise, deflection up, M = E I v'' positive when it sags, V = dM/dx.
"""

from fractions import Fraction

from sympy import QQ
from sympy.polys.matrices import DomainMatrix


class ExactBeam:
    def __init__(self, length, rigidity, supports, hinges, loads):
        self.length, self.rigidity = Fraction(length), Fraction(rigidity)
        self.supports, self.hinges, self.loads = supports, [Fraction(h) for h in hinges], loads
        stations = {Fraction(0), self.length, *self.hinges}
        stations |= {Fraction(s["x"]) for s in supports}
        for load in loads:
            stations |= {Fraction(load[k]) for k in ("x", "from", "to") if k in load}
        self.stations = sorted(stations)
        self._solve()

    def _intensity(self, left, right):
        """Load down on the segment as a + b * xi, xi from the segment's left end."""
        a = b = Fraction(0)
        for load in self.loads:
            if load["kind"] == "spread" and Fraction(load["from"]) <= left and right <= Fraction(load["to"]):
                start, end = Fraction(load["from"]), Fraction(load["to"])
                slope = (Fraction(load["down_to"]) - Fraction(load["down_from"])) / (end - start)
                a += Fraction(load["down_from"]) + slope * (left - start)
                b += slope
        return a, b

    def _row(self, segment, xi, derivative):
        """Coefficients of the four unknowns and the known part of the derivative of v at xi in a segment."""
        a, b = self.loads_of[segment]
        powers = [0, 1, 2, 3]
        row = {}
        for p in powers:
            if p >= derivative:
                factor = Fraction(1)
                for k in range(derivative):
                    factor *= p - k
                row[4 * segment + p] = factor * xi ** (p - derivative)
        known = Fraction(0)
        for p, coefficient in ((4, -a / 24 / self.rigidity), (5, -b / 120 / self.rigidity)):
            factor = Fraction(1)
            for k in range(derivative):
                factor *= p - k
            known += coefficient * factor * xi ** (p - derivative)
        return row, known

    def _solve(self):
        xs = self.stations
        count = len(xs) - 1
        self.loads_of = [self._intensity(xs[i], xs[i + 1]) for i in range(count)]
        size = 4 * count
        rows, rhs = [], []

        def require(terms, value):
            """sum(factor * derivative of v) = value"""
            row, total = {}, Fraction(value)
            for factor, (coefficients, known) in terms:
                for k, c in coefficients.items():
                    row[k] = row.get(k, Fraction(0)) + factor * c
                total -= factor * known
            rows.append(row)
            rhs.append(total)

        EI = self.rigidity
        for i, x in enumerate(xs):
            left = (lambda d, i=i, x=x: self._row(i - 1, x - xs[i - 1], d)) if i > 0 else None
            right = (lambda d, i=i: self._row(i, Fraction(0), d)) if i < count else None
            some = right or left
            support = next((s for s in self.supports if Fraction(s["x"]) == x), None)
            held = support["kind"] if support else None
            force = sum((-Fraction(l["down"]) for l in self.loads if l["kind"] == "force" and Fraction(l["x"]) == x), Fraction(0))
            couple = sum((Fraction(l["ccw"]) for l in self.loads if l["kind"] == "couple" and Fraction(l["x"]) == x), Fraction(0))
            hinge = x in self.hinges
            if left and right:
                require([(1, left(0)), (-1, right(0))], 0)
                if hinge:
                    require([(1, left(2))], 0)
                    require([(1, right(2))], 0)
                else:
                    require([(1, left(1)), (-1, right(1))], 0)
            # vertical: either v is imposed, or the jump of V equals the upward force there
            down = -Fraction(support.get("settles", 0)) if support else 0
            if held in ("pin", "roller", "fixed"):
                require([(1, some(0))], down)
            else:
                terms = []
                if right:
                    terms.append((EI, right(3)))
                if left:
                    terms.append((-EI, left(3)))
                if held == "spring":
                    terms.append((Fraction(support["stiffness"]), some(0)))  # spring force up = -k v
                require(terms, force)
            # turning: either the slope is imposed, or the jump of M equals minus the couple (ccw)
            if not (hinge and left and right):
                if held in ("fixed", "guided"):
                    require([(1, some(1))], 0)
                else:
                    terms = []
                    if right:
                        terms.append((EI, right(2)))
                    if left:
                        terms.append((-EI, left(2)))
                    require(terms, -couple)
        assert len(rows) == size, (len(rows), size)
        dense = [[QQ(0)] * size for _ in range(size)]
        for r, row in enumerate(rows):
            for k, c in row.items():
                dense[r][k] = QQ(c.numerator, c.denominator)
        matrix = DomainMatrix(dense, (size, size), QQ)
        right_side = DomainMatrix([[QQ(v.numerator, v.denominator)] for v in rhs], (size, 1), QQ)
        solution = matrix.to_sparse().lu_solve(right_side.to_sparse()).to_list_flat()
        self.unknowns = [Fraction(int(v.numerator), int(v.denominator)) for v in solution]

    def derivative(self, x, side, order):
        """The derivative of v at x from the given side ('left' or 'right')."""
        x = Fraction(x)
        xs = self.stations
        for i in range(len(xs) - 1):
            inside = xs[i] <= x < xs[i + 1] if side == "right" else xs[i] < x <= xs[i + 1]
            if inside:
                row, known = self._row(i, x - xs[i], order)
                return known + sum(self.unknowns[k] * c for k, c in row.items())
        raise ValueError((x, side))

    def deflection(self, x, side="right"):
        return self.derivative(x, side, 0)

    def slope(self, x, side):
        return self.derivative(x, side, 1)

    def moment(self, x, side):
        return self.rigidity * self.derivative(x, side, 2)

    def shear(self, x, side):
        return self.rigidity * self.derivative(x, side, 3)
