package org.wearledger.model;

import java.io.Serializable;
import java.time.LocalDate;

/**
 * What a drive itself reports of failing.
 *
 * @param from spare blocks in percent, or media errors before they rose; else 0
 * @param to the threshold of spare blocks in percent, or media errors since; else 0
 * @param on the day of the report that shows the rise of media errors; else {@code null}
 */
public record WarningSign(Kind kind, long from, long to, LocalDate on) implements Serializable {
    /** By the bits of the critical warning, the available spare and the media errors of the health log of NVM Express. */
    public enum Kind {
        /** The media was placed in read-only mode. */
        READ_ONLY,
        /** Reliability is degraded by media or internal errors. */
        RELIABILITY_DEGRADED,
        /** The available spare has fallen to its threshold or below. */
        SPARE_AT_THRESHOLD,
        /** The drive warns of its spare without both figures. */
        SPARE_BELOW_THRESHOLD,
        /** Media and data integrity errors rose within a year. */
        MEDIA_ERRORS_ROSE
    }

    /** One without figures. */
    public static WarningSign of(Kind kind) {
        return new WarningSign(kind, 0, 0, null);
    }

    /** As a clause, such as {@code media errors rose from 12 to 20 by 2025-01-06}. */
    public String words() {
        return switch (kind) {
            case READ_ONLY -> "the drive reports that its media is read-only";
            case RELIABILITY_DEGRADED -> "the drive reports degraded reliability";
            case SPARE_AT_THRESHOLD -> "spare blocks are down to " + from + " %, the drive's threshold is " + to + " %";
            case SPARE_BELOW_THRESHOLD -> "the drive reports its spare blocks below the threshold";
            case MEDIA_ERRORS_ROSE -> "media errors rose from " + from + " to " + to + " by " + on;
        };
    }
}
