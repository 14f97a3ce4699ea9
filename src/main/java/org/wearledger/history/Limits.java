package org.wearledger.history;

import java.io.Serializable;
import java.time.Duration;
import java.time.Instant;

/**
 * How late a reading may be.
 *
 * @param now the moment of the sweep
 * @param asOfEnd last moment of the as-of date, {@code null} when the user set none
 */
public record Limits(Instant now, Instant asOfEnd) implements Serializable {
    /** A machine's clock may be wrong by a time zone or a day's roll-over; more than that is no clock to trust. */
    public static final Duration CLOCK_TOLERANCE = Duration.ofHours(24);

    boolean isInFuture(Instant collectedAt) {
        return collectedAt.isAfter(now.plus(CLOCK_TOLERANCE));
    }

    boolean isAfterAsOf(Instant collectedAt) {
        return asOfEnd != null && collectedAt.isAfter(asOfEnd);
    }

    /** Whether a reading of that time counts: neither in the future nor after the as-of date. */
    public boolean admit(Instant collectedAt) {
        return !isInFuture(collectedAt) && !isAfterAsOf(collectedAt);
    }
}
