package org.wearledger.model;

import java.io.Serializable;
import java.time.LocalDate;

/**
 * One drive's warranty, which ends by date or by bytes written, whichever comes first.
 *
 * @param endsOn by date; {@code null} when not known
 * @param dateRestsOn how that date was reached, or what is missing for it
 * @param passesRatingOn as likely as not by then; {@code null} when not known, passed, or more than ten years ahead
 * @param passesRatingEarlyOn one chance in ten by then
 */
public record WarrantyCheck(MachineAssessment machine, DriveAssessment drive, LocalDate endsOn, String dateRestsOn,
                            LocalDate passesRatingOn, LocalDate passesRatingEarlyOn, Finding finding) implements Serializable {
    /** In printing order. */
    public enum Finding {
        CLAIM_OPEN("failing inside the dated warranty and below the rating: ask the maker before the date"),
        RATING_PASSED("the rating is passed inside the dated warranty: the claim may be refused"),
        RATING_FIRST("will as likely as not pass the rating before the date"),
        RATING_MAYBE_FIRST("has one chance in ten to pass the rating before the date"),
        DATE_FIRST("the date comes first"),
        ENDED("the date has passed"),
        NOT_KNOWN("no warranty date is known");

        private final String words;

        Finding(String words) {
            this.words = words;
        }

        public String words() {
            return words;
        }
    }
}
