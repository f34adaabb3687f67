#!/usr/bin/python3
"""Independent sizes in cents for the catalogue.

Reads data/catalogue/*.toml with an expression reader of its own and prints id, expression and cents: one line for every
interval and comma, and one for every degree of every scale and system (`id#index`, the first degree above 1/1 is 1).
Python 3.11 (tomllib) and mpmath; on Debian: python3-mpmath.
"""
import pathlib
import re
import tomllib
from fractions import Fraction

import mpmath

DIGITS = 60
DECIMALS = 10
HERE = pathlib.Path(__file__).resolve().parent
CATALOGUE = HERE.parent.parent / "data" / "catalogue"
TOKEN = re.compile(r"\s*(?:(\d+of\d+)|(\d+\.\d+|\d+)c\b|(\d+)|(.))")


def factors(n):
    """Prime exponents of a positive integer, by trial division."""
    found, p = {}, 2
    while n > 1:
        while n % p == 0:
            found[p] = found.get(p, Fraction(0)) + 1
            n //= p
        p += 1
    return found


def add(a, b):
    """Intervals laid end to end: exponents add, zeros vanish."""
    total = {p: a.get(p, Fraction(0)) + b.get(p, Fraction(0)) for p in a.keys() | b.keys()}
    return {p: e for p, e in total.items() if e}


def scale(a, k):
    """The interval taken k times, k a fraction."""
    return {p: e * k for p, e in a.items() if e * k}


class Reader:
    """Recursive descent over: sum = term {(+|-) term}; term = [count x] power; power = atom [^ exponent]."""

    def __init__(self, text):
        self.text = text
        self.tokens = [m for m in TOKEN.finditer(text.rstrip())]
        self.at = 0

    def peek(self):
        return self.tokens[self.at].group().strip() if self.at < len(self.tokens) else ""

    def take(self, want=None):
        token = self.peek()
        if not token or (want and token != want):
            raise ValueError(f"{self.text!r}: {want or 'more'} expected at {token!r}")
        self.at += 1
        return token

    def whole(self):
        value = self.sum()
        if self.peek():
            raise ValueError(f"{self.text!r}: left over {self.peek()!r}")
        return value

    def sum(self):
        value = self.term()
        while self.peek() in ("+", "-"):
            sign = 1 if self.take() == "+" else -1
            value = add(value, scale(self.term(), sign))
        return value

    def term(self):
        start = self.at
        if self.peek().isdigit():
            count = int(self.take())
            if self.peek() == "x":
                self.take()
                return scale(self.power(), Fraction(count))
            self.at = start
        return self.power()

    def power(self):
        base = self.atom()
        if self.peek() == "^":
            self.take()
            base = scale(base, self.exponent())
        return base

    def exponent(self):
        if self.peek() == "(":
            self.take()
            value = Fraction(int(self.take()))
            if self.peek() == "/":
                self.take()
                value /= int(self.take())
            self.take(")")
            return value
        return Fraction(int(self.take()))

    def atom(self):
        token = self.take()
        if token == "(":
            value = self.sum()
            self.take(")")
            return value
        if "of" in token:
            step, division = map(int, token.split("of"))
            period = {2: Fraction(1)}
            if self.peek() == "(":
                self.take()
                period = self.sum()
                self.take(")")
            return scale(period, Fraction(step, division))
        if token.endswith("c"):
            return scale({2: Fraction(1)}, Fraction(token[:-1]) / 1200)
        value = factors(int(token))
        if self.peek() in ("/", ":"):
            self.take()
            value = add(value, scale(factors(int(self.take())), -1))
        return value


def read(text):
    """Expression -> {prime: exponent}; exact."""
    return Reader(text).whole()


def cents(value):
    """1200 log2 of the interval."""
    with mpmath.workdps(DIGITS):
        exact = mpmath.mpf(0)
        for p, e in value.items():
            exact += mpmath.mpf(e.numerator) / e.denominator * mpmath.log(p, 2)
        return 1200 * exact


def decimal(x):
    """Rounded half up to DECIMALS; no size here is a tie that is not exact."""
    with mpmath.workdps(DIGITS):
        scaled = int(mpmath.floor(abs(x) * 10**DECIMALS + mpmath.mpf("0.5")))
    whole, part = divmod(scaled, 10**DECIMALS)
    return f"{'-' if x < 0 and scaled else ''}{whole}.{part:0{DECIMALS}d}"


def rows():
    """(label, expression) of everything in the catalogue that has a size, by file and place."""
    for path in sorted(CATALOGUE.glob("*.toml")):
        for entries in tomllib.loads(path.read_text(encoding="utf-8")).values():
            for entry in entries:
                yield from sizes(entry)


def sizes(entry):
    if "interval" in entry:
        yield entry["id"], entry["interval"]
    if "division" in entry:
        period = entry.get("period", "2/1")
        for k in range(1, entry["division"]):
            yield f"{entry['id']}#{k}", f"{k}of{entry['division']}" + ("" if period == "2/1" else f"({period})")
    for k, degree in enumerate(entry.get("degrees", []), 1):
        yield f"{entry['id']}#{k}", degree if isinstance(degree, str) else degree["interval"]


if __name__ == "__main__":
    for label, text in rows():
        print(label, text, decimal(cents(read(text))), sep="\t")
