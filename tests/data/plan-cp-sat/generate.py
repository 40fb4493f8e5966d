"""Draws plans from a seed: 600 of 1 to 12 chores, then 70 of 13 to 24. One JSON object a line; no answers."""
import json
import random

chance = random.Random(20260)


def drawn(count):
    crew = chance.randint(1, 6)
    gear = [chance.randint(1, 2) for _ in range(chance.randint(0, 2))]
    longest = chance.choice([3, 9, 20])
    waiting, geared = chance.choice([0, 0.1, 0.3]), chance.choice([0, 0.3, 0.7])
    chores = []
    for index in range(count):
        first = [other for other in range(index) if chance.random() < waiting / (1 + index / 6)]
        held = chance.randrange(len(gear)) if gear and chance.random() < geared else -1
        chores.append([chance.randint(0 if chance.random() < 0.1 else 1, longest), chance.randint(0, crew), held, first])
    now_ms = chance.randint(0, 120 * 60_000)
    hot = chance.choice(["none", "coming", "ended"])
    case = {"crew": crew, "gear": gear, "floor": chance.choice([0, 5, 10, 30]), "watch": chance.choice([0, 5, 15, 30, 60]),
            "exclusive": chance.random() < 0.75, "chores": chores, "hot": hot, "now_ms": now_ms}
    if hot == "ended":
        # Hot work ends before now; one in three at odd milliseconds, so that nothing falls on a minute.
        if chance.random() < 2 / 3:
            case["now_ms"] = now_ms = now_ms // 60_000 * 60_000
            case["ended_ms"] = now_ms + chance.randint(0, 70) * 60_000
        else:
            case["ended_ms"] = now_ms + chance.randint(0, 70 * 60_000)
    return case


for count in [1 + index % 12 for index in range(600)] + [13 + index % 12 for index in range(70)]:
    print(json.dumps(drawn(count), separators=(",", ":")))
