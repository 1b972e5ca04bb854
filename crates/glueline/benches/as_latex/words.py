"""Words, signs and formulas as LaTeX. A sign or an element that is not known is refused."""

import re

GREEK = {
    "α": "alpha", "β": "beta", "γ": "gamma", "δ": "delta", "ε": "varepsilon", "η": "eta", "θ": "theta", "κ": "kappa",
    "λ": "lambda", "μ": "mu", "ν": "nu", "π": "pi", "ρ": "rho", "σ": "sigma", "τ": "tau", "φ": "varphi", "ψ": "psi",
    "ω": "omega", "Δ": "Delta", "Σ": "Sigma", "Ω": "Omega",
}  # fmt: skip
IN_FORMULAS = {sign: rf"\{name} " for sign, name in GREEK.items()} | {
    "−": "-", "⋅": r"\cdot ", "·": r"{\cdot}", "×": r"\times ", "≈": r"\approx ", "≤": r"\le ", "≥": r"\ge ",
    "∑": r"\sum ", "′": "'", "°": r"{}^\circ ", "\u202f": r"\,", "\xa0": "~", " ": r"\ ", "%": r"\%",
}  # fmt: skip
IN_WORDS = {
    "\xa0": "~", "\u202f": r"\,", "\u2002": r"\enspace{}", "–": "--", "’": "'", "“": "``", "”": "''", '"': "''",
    "<": "$<$", ">": "$>$", "\\": r"\textbackslash{}", "~": r"\~{}", "^": r"\^{}",
} | {sign: "\\" + sign for sign in "&%$#_{}"}  # fmt: skip
RAISED = "⁻⁰¹²³⁴⁵⁶⁷⁸⁹"


def macro(name, *arguments):
    return "\\" + name + "".join(f"{{{argument}}}" for argument in arguments)


def words(plain):
    return "".join(map(in_words, re.findall(f"[{RAISED}]+|.", re.sub(r"[ \n]+", " ", plain or ""))))


def in_words(sign):
    """One sign, or several raised ones that follow one another."""
    if sign[0] in RAISED:
        return f"$^{{{sign.translate(str.maketrans(RAISED, '-0123456789'))}}}$"
    if sign in IN_WORDS or sign.isascii():
        return IN_WORDS.get(sign, sign)
    return f"${in_formula(sign).strip()}$"


def in_formula(sign):
    if sign not in IN_FORMULAS and not sign.isascii():
        raise ValueError(f"no LaTeX is known for the sign {sign!r}")
    return IN_FORMULAS.get(sign, sign)


def formula(element):
    """An element of MathML Core, as our pages write it."""
    if element.text == "\u2062":  # a product without a sign
        return r"\," if element.get("rspace") == "0.1667em" else ""
    if element.tag == "mover" and element[1].text == "¯":
        return macro("bar", formula(element[0]))
    said = "".join(map(in_formula, element.text or "")).strip()
    inner = [formula(child) for child in element]
    match element.tag:
        case "math" | "mrow" | "mtd":
            return "".join(inner)
        case "mi":
            # One letter is slanted unless it is told to stand upright; names of several and units stand upright.
            upright = element.get("mathvariant") == "normal" or len(element.text) > 1
            return macro("mathrm", said.replace(",", "{,}")) if upright and element.text not in GREEK else said + " "
        case "mn":
            return said
        case "mo":
            return said + (" " if said.startswith("\\") else "")
        case "msub":
            return "{%s}_{%s}" % tuple(inner)
        case "msup":
            return "{%s}^{%s}" % tuple(inner)
        case "msubsup":
            return "{%s}_{%s}^{%s}" % tuple(inner)
        case "mfrac":
            return macro("frac", *inner)
        case "mspace":
            return macro("hspace", element.get("width"))
        case "mtr":
            return "&".join(inner)
        case "mtable":
            return "\\begin{aligned}\n%s\n\\end{aligned}" % "\\\\[2pt]\n".join(inner)
    raise ValueError(f"no LaTeX is known for <{element.tag}> in a formula")
