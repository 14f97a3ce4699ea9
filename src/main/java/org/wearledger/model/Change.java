package org.wearledger.model;

import java.io.Serializable;
import java.math.BigDecimal;
import java.util.Locale;

/**
 * One thing that differs from the earlier sweep.
 *
 * @param before in the earlier sweep, {@code now} in this one; empty where there was nothing
 * @param costDelta by how much the planned amount changed; {@code null} where no money moved
 */
public record Change(Kind kind, String machineId, String site, String before, String now, BigDecimal costDelta)
    implements Serializable {
    /** In printing order. */
    public enum Kind {
        NEWLY_URGENT, NEWLY_PAST_RATING, NEWLY_DUE, NEWLY_WATCH, DRIVE_REPLACED, GONE, NOT_REPORTED, NEW, EASED, VERDICT_FOUND, VERDICT_LOST, NOT_DONE_YET, COST_MOVED, COST_ADDED, COST_DROPPED,
        WRITES_ROSE, WRITES_FELL;

        public String label() {
            return name().toLowerCase(Locale.ROOT).replace('_', ' ');
        }
    }
}
