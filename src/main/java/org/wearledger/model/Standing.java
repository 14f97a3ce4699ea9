package org.wearledger.model;

import java.util.Locale;

/** What to do about a drive or machine, worst first; the order of the constants is the order of urgency. */
public enum Standing {
    /** The drive reports a warning of its own, its spare is at or below the threshold, or its media errors rose. */
    URGENT("back up now, then replace the drive", "tell the owner: back up now, and offer a new drive"),
    /** Bytes written reach the rated endurance, or percentage used reaches 100. */
    PAST_RATING("verify the backup; do the checks in the work list, then order; do not store it unpowered with data on it", "check the figures if they disagree; tell the owner and offer a new drive"),
    /** Likely to cross either limit within the lead time and one quarter. */
    DUE("verify the backup and order the replacement by its order date", "tell the owner and offer a new drive"),
    /** May cross either limit within four quarters. */
    WATCH("verify the backup, order when the plan says so, and look again next sweep", "tell the owner, and look again in about three months"),
    /** None of the above; says nothing of causes that wear figures do not show. */
    WITHIN_RATING("keep backing up and look again next sweep", "nothing to offer; look again when it comes in next"),
    /** Too little was reported to say anything. */
    NO_VERDICT("back up, and get a complete report from this machine", "read the drive in it when it comes in next");

    private final String nextStep;
    private final String nextStepForCustomer;

    Standing(String nextStep, String nextStepForCustomer) {
        this.nextStep = nextStep;
        this.nextStepForCustomer = nextStepForCustomer;
    }

    /** The words of the outputs, such as {@code past rating}. */
    public String label() {
        return name().toLowerCase(Locale.ROOT).replace('_', ' ');
    }

    /** What the reader should do, as a clause that the outputs print. */
    public String nextStep() {
        return nextStep;
    }

    /** The same for a shop, of a customer's machine: it is in no plan or work list. */
    public String nextStepForCustomer() {
        return nextStepForCustomer;
    }
}
