package org.wearledger.model;

import java.util.Locale;

/** What to do about a drive or machine, worst first; the order of the constants is the order of urgency. */
public enum Standing {
    URGENT("back up now and replace: the drive reports a failing state"),
    PAST_RATING("verify the backup, order the replacement now; do not store it unpowered with data on it"),
    DUE("verify the backup and order the replacement by its order date"),
    WATCH("verify the backup, order when the plan says so, and look again next sweep"),
    WITHIN_RATING("keep backing up and look again next sweep"),
    NO_VERDICT("back up, and get a complete report from this machine");

    private final String nextStep;

    Standing(String nextStep) {
        this.nextStep = nextStep;
    }

    /** The words of the outputs, such as {@code past rating}. */
    public String label() {
        return name().toLowerCase(Locale.ROOT).replace('_', ' ');
    }

    public String nextStep() {
        return nextStep;
    }
}
