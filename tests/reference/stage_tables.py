"""Prints what a scale expects of the stages of a course at chosen heights, computed
from docs/identification.md and the figures of lib/identify/strengths.hpp, and not by Sectio.

The scale is made up: commas 0 9 17 22 31 40 48, dominant 5, second dominant 3, a mobile note at 44.
A row: course, strengths, stage, bin (a quarter of a comma above the tonic), log density."""
import math

DEGREES = [c * 1200 / 53 for c in (0, 9, 17, 22, 31, 40, 48)]
FIRM = {0, 4, 9, 13, 22, 31, 35, 40, 44}  # commas: few fifths from the tonic
DOMINANT, SECOND, MOBILE = 5, 3, [44 * 1200 / 53]
# spread, spread of moved degrees, share a comma off, strays, share of octaves, even heights
STRENGTHS = {"written": (7.5, 7.5, 0.6, 0.3, 0.95, 0.3), "heard": (12, 21, 0, 0.05, 0.6, 0.33)}
# tonic, dominant, second dominant, width
STAGES = {"written": {"whole": (1, 2.4, 1.6, 900), "beginning": (2.2, 1, 1.5, 75),
                      "opening": (1, 7.5, 3, 90), "half closes": (115, 1.1, 1.1, 80),
                      "close": (27, 1, 1.1, 280), "cadence": (4.5, 1.8, 1, 300)},
          "heard": {"whole": (1, 2, 1.5, 900), "beginning": (3, 2, 1.5, 90),
                    "opening": (1, 6, 1.5, 120), "half closes": (50, 1, 2.5, 90),
                    "close": (12, 2, 2.5, 300), "cadence": (4.5, 1.8, 1, 300)}}
MOBILE_EMPHASIS = 0.15
COMMA_SPREAD, REACH, EVEN_RANGE = 25, 120, 2400
BIN = 1200 / 212


def height(number):
    periods, index = divmod(number - 1, len(DEGREES))
    return DEGREES[index] + 1200 * periods


def middle(course, stage):
    dominant = height(DOMINANT)
    if stage == "cadence":
        return 225
    if course == "unknown":
        at = 450 if stage == "close" else 500
    elif stage == "whole":
        at = {"ascending": 0.5 * dominant, "turning": 0.85 * dominant,
              "descending": 0.5 * (1200 + height(SECOND)) / 2}[course]
    elif stage == "close":
        at = min(dominant / 2, 450)
    else:
        at = {"ascending": 0.25 * dominant, "turning": dominant, "descending": 1200}[course]
    return at


def places(course, strengths, stage):
    tonic, dominant, second, width = STAGES[strengths][stage]
    share, even = STRENGTHS[strengths][4:]
    lower = lambda emphasis: 1 + (emphasis - 1) * share
    at = middle(course, stage)
    if course == "unknown" and stage != "cadence":
        width *= 1.6
    found = []
    for octave in range(-2, 5):
        for i, cents in enumerate(DEGREES):
            number = i + 1 + 7 * octave
            weight = 1
            if i == 0:
                weight = tonic if octave == 0 else max(1, lower(tonic))
            if (i, octave) != (0, 0) and course != "unknown":
                if number == DOMINANT:
                    weight = max(weight, dominant)
                elif (DOMINANT - number) % 7 == 0:
                    weight = max(weight, lower(dominant))
                if number == SECOND:
                    weight = max(weight, second)
            found.append([cents + 1200 * octave, weight])
        if course != "unknown":
            found += [[cents + 1200 * octave, MOBILE_EMPHASIS] for cents in MOBILE]
    for place in found:
        away = (place[0] - at) / width
        place[1] *= even + (1 - even) * math.exp(-away * away / 2)
        if not -900 <= place[0] <= 2300:
            place[1] *= 0.2
    total = sum(weight for _, weight in found)
    return [(cents, weight / total) for cents, weight in found]


def normal(x, spread):
    return math.exp(-x * x / (2 * spread * spread)) / (spread * math.sqrt(2 * math.pi))


def log_density(course, strengths, stage, at):
    spread, moved_spread, comma_off, stray = STRENGTHS[strengths][:4]
    density = 0
    for cents, weight in places(course, strengths, stage):
        away = abs(at * BIN - cents)
        if away > REACH:
            continue
        own = spread if round(cents * 53 / 1200) % 53 in FIRM else moved_spread
        whole = math.floor(away + 0.5)  # the kernel is looked up in whole cents
        density += weight * ((1 - comma_off) * normal(whole, own)
                             + comma_off * normal(whole, COMMA_SPREAD))
    return math.log((1 - stray) * density * EVEN_RANGE + stray)


HEIGHTS = sorted({212 * octave + 4 * comma for octave in range(-2, 4)
                  for comma in (0, 9, 17, 22, 31, 44, 48)}
                 | {-424, 848, 846, 2, 7, 12, 57, 70, 106, 212 + 3, 250, 420})
for course in ("ascending", "turning", "descending", "unknown"):
    for strengths in STRENGTHS:
        for stage in STAGES[strengths]:
            for at in HEIGHTS:
                value = log_density(course, strengths, stage, at)
                print(f"{course}\t{strengths}\t{stage}\t{at}\t{value:.5f}")
