"""How a panel bends under forces across it: a beam held by nothing, so that what holds it may be found.

A beam of cubic elements between its loaded places (Euler and Bernoulli); its two motions as a rigid body are
left out of the compliance and are unknowns of whoever closes the case. For forces in balance it is exact.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray


def compliance(places: Sequence[float], rigidity: float) -> NDArray[np.float64]:
    """Inches at each place for a pound at each, but for a rigid motion. `rigidity` is E I in lb in2."""
    count = len(places)
    whole = np.zeros((2 * count, 2 * count))
    for number in range(count - 1):
        long = places[number + 1] - places[number]
        element = (rigidity / long**3) * np.array(
            [
                [12, 6 * long, -12, 6 * long],
                [6 * long, 4 * long**2, -6 * long, 2 * long**2],
                [-12, -6 * long, 12, -6 * long],
                [6 * long, 2 * long**2, -6 * long, 4 * long**2],
            ]
        )
        at = slice(2 * number, 2 * number + 4)
        whole[at, at] += element
    return np.asarray(np.linalg.pinv(whole, rcond=1e-12, hermitian=True)[::2, ::2])
