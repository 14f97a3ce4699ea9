package org.wearledger.history;

import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** Of readings that contradict each other in one respect, the side that most of them take. */
final class MostAgree {
    private MostAgree() {
    }

    /** The side with most supporters, on a tie the one that came first. */
    static <T> T of(List<T> sides) {
        Map<T, Integer> supporters = new HashMap<>();
        sides.forEach(side -> supporters.merge(side, 1, Integer::sum));
        T best = sides.get(0);
        for (T side : sides) {
            if (supporters.get(side) > supporters.get(best)) {
                best = side;
            }
        }
        return best;
    }
}
