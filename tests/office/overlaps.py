"""Words of a page that lie on one another."""

INSIDE = 0.35  # mm by which boxes of neighbouring lines may touch: a box is higher than its letters


def overlapping(page):
    """Pairs of word boxes that share more than their rims."""
    boxes = sorted(page.words)
    return [
        (one, other)
        for at, one in enumerate(boxes)
        for other in boxes[at + 1 :]
        if min(one[2], other[2]) - max(one[0], other[0]) > INSIDE
        and min(one[3], other[3]) - max(one[1], other[1]) > INSIDE + 0.25 * (one[3] - one[1])
    ]
