package org.wearledger.model;

import java.io.Serializable;
import java.time.LocalDate;
import java.util.Comparator;
import java.util.stream.Stream;

/**
 * One drive's warranty, which ends by date or by bytes written, whichever comes first.
 *
 * @param driveEndsOn the drive's, by its model's years; {@code null} when not known, and for a soldered drive: the machine's maker answers for that
 * @param machineEndsOn the machine's, as the inventory has it; {@code null} when not known
 * @param dateRestsOn how the drive's date was reached, or what is missing for it
 * @param passesRatingOn the middle date of the forecast; {@code null} when not known, passed, or more than ten years ahead
 * @param passesRatingEarlyOn one chance in ten by then
 */
public record WarrantyCheck(MachineAssessment machine, DriveAssessment drive, LocalDate driveEndsOn, LocalDate machineEndsOn,
                            String dateRestsOn,
                            LocalDate passesRatingOn, LocalDate passesRatingEarlyOn, Finding finding) implements Serializable {
    /** The later of the two dates: a claim may be open under either. */
    public LocalDate endsOn() {
        return driveEndsOn == null ? machineEndsOn : machineEndsOn == null || driveEndsOn.isAfter(machineEndsOn) ? driveEndsOn : machineEndsOn;
    }

    /** Of the two dates the next that has not passed; {@code null} for none. */
    public LocalDate nextEndOn(LocalDate asOf) {
        return Stream.of(driveEndsOn, machineEndsOn).filter(end -> end != null && !end.isBefore(asOf)).min(Comparator.naturalOrder()).orElse(null);
    }

    /** Whether the machine's maker gives the warranty whose date comes next. */
    public boolean isOfMachine(LocalDate asOf) {
        return machineEndsOn != null && machineEndsOn.equals(nextEndOn(asOf));
    }

    /** In printing order. */
    public enum Finding {
        /** Urgent, below the rated bytes, by date still in warranty. */
        CLAIM_OPEN("fails before its warranty date: ask the maker before buying"),
        /** By the controller its endurance is used up, below the rated bytes, by date still in warranty: the terms say which of the two counts. */
        CLAIM_TO_ASK("its controller reports its endurance as used up, below the rated bytes and before its warranty date: ask the maker before buying"),
        /** The rated bytes are written before the date. */
        RATING_PASSED("the rating is passed before the warranty date: the claim may be refused"),
        /** The middle date of the forecast lies before the end by date. */
        RATING_FIRST("will probably pass the rating, and so leave the warranty, before its date"),
        /** Only the early date of the forecast does. */
        RATING_MAYBE_FIRST("has one chance in ten to pass the rating, and so leave the warranty, before its date"),
        /** No rating was found, or it is assumed, which is no maker's word. */
        RATING_NOT_KNOWN("before its warranty date; the maker's limit of bytes written is not known"),
        /** Neither date of the forecast does. */
        DATE_FIRST("by what is written, the warranty ends by its date before the rating is passed"),
        /** The later end by date lies before the as-of date. */
        ENDED("the warranty date has passed"),
        /** Neither the drive's nor the machine's end is known. */
        NOT_KNOWN("no warranty date is known");

        private final String words;

        Finding(String words) {
            this.words = words;
        }

        /** Whether the maker is asked before anything is bought. */
        public boolean isToBeAsked() {
            return this == CLAIM_OPEN || this == CLAIM_TO_ASK;
        }

        /** The sentence that the outputs print. */
        public String words() {
            return words;
        }
    }
}
