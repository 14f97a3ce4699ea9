package org.wearledger.planted.stats;

import org.wearledger.planted.assess.Judges;
import org.wearledger.planted.model.StaysHere;

/** Statistics must know nothing of ours; with {@link Judges} it also closes a cycle. */
public final class KnowsDrives {
    public int of(StaysHere fact) {
        return Judges.LEAST + fact.value();
    }
}
