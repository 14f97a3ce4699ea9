package org.wearledger.report;

import org.wearledger.model.WarningSign;

/** What a drive reports of failing, a sentence for each sign. */
final class SignWords {
    private SignWords() {
    }

    /** For who works with the machine, and its IT. */
    static String sentence(WarningSign sign) {
        return switch (sign.kind()) {
            case READ_ONLY -> "The drive reports that it is read-only: it takes no more data.";
            case RELIABILITY_DEGRADED -> "The drive reports that it no longer works reliably.";
            case SPARE_AT_THRESHOLD -> "The drive's spare blocks are down to " + sign.from() + " %; its own limit is " + sign.to() + " %.";
            case SPARE_BELOW_THRESHOLD -> "The drive reports that its spare blocks are below its own limit.";
            case MEDIA_ERRORS_ROSE -> "The drive could not read or keep some data: its media errors rose from " + sign.from() + " to " + sign.to() + " by " + sign.on() + ".";
        };
    }

    /** For an owner. */
    static String forOwner(WarningSign sign) {
        return switch (sign.kind()) {
            case READ_ONLY -> "It reports that it takes no more data.";
            case RELIABILITY_DEGRADED -> "It reports that it no longer works reliably.";
            case SPARE_AT_THRESHOLD, SPARE_BELOW_THRESHOLD -> "It reports that its reserve for worn parts is nearly used up.";
            case MEDIA_ERRORS_ROSE -> "It reports new errors in reading or keeping data, the last of them by " + OwnersWords.day(sign.on()) + ".";
        };
    }
}
