package org.wearledger.intake;

import org.wearledger.model.Fact;
import org.wearledger.model.Problem;

/** Records behind a fault that were not reached, in words. */
final class UnreadRecords {
    private UnreadRecords() {
    }

    /** @param unread in the form of {@link FileSummary#unread} */
    static String inWords(long unread) {
        return unread == FileSummary.NOT_KNOWN ? "how many records are unread cannot be told" : "about " + unread + (unread == 1 ? " record" : " records") + " unread";
    }

    /**
     * The problem of a fault, with what lies unread behind it.
     *
     * @param goesOn where reading goes on; {@code null} when it does not
     */
    static Problem behind(Problem fault, long unread, String goesOn) {
        return fault.with(Fact.UNREAD, unread).with(Fact.PLACE, goesOn);
    }
}
