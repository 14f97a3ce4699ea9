package org.wearledger.model;

import java.io.Serializable;
import java.time.LocalDate;

/**
 * One drive's warranty, which ends by date or by bytes written, whichever comes first.
 *
 * @param driveEndsOn the drive's, by its model's years; {@code null} when not known
 * @param machineEndsOn the machine's, as the inventory has it; likewise
 * @param dateRestsOn how the drive's date was reached, or what is missing for it
 * @param passesRatingOn as likely as not by then; {@code null} when not known, passed, or more than ten years ahead
 * @param passesRatingEarlyOn one chance in ten by then
 */
public record WarrantyCheck(MachineAssessment machine, DriveAssessment drive, LocalDate driveEndsOn, LocalDate machineEndsOn,
                            String dateRestsOn,
                            LocalDate passesRatingOn, LocalDate passesRatingEarlyOn, Finding finding) implements Serializable {
    /** The later of the two dates: a claim may be open under either. */
    public LocalDate endsOn() {
        return driveEndsOn == null ? machineEndsOn : machineEndsOn == null || driveEndsOn.isAfter(machineEndsOn) ? driveEndsOn : machineEndsOn;
    }

    /** In printing order. */
    public enum Finding {
        CLAIM_OPEN("fails inside the dated warranty: ask the maker before buying"),
        RATING_PASSED("the rating is passed inside the dated warranty: the claim may be refused"),
        RATING_FIRST("will as likely as not pass the rating, and so leave the warranty, before its date"),
        RATING_MAYBE_FIRST("has one chance in ten to pass the rating, and so leave the warranty, before its date"),
        RATING_NOT_KNOWN("inside the dated warranty; the maker's limit of bytes written is not known"),
        DATE_FIRST("the warranty ends by its date before the rating is passed"),
        ENDED("the dated warranty has ended"),
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
