package org.wearledger.model;

import java.io.Serializable;
import java.time.LocalDate;
import java.util.Locale;

/**
 * One thing to do for one machine.
 *
 * @param byOn the day by which it should be done
 * @param what to do, as a clause
 */
public record WorkItem(LocalDate byOn, Action action, Machine machine, Standing standing, String what)
    implements Serializable {
    /** In the order of one day's work: backup before anything else. */
    public enum Action {
        /** The drive is urgent: back up now. */
        BACK_UP,
        /** See that the backup is complete and can be read. */
        CHECK_BACKUP,
        /** Figures that contradict themselves, before money is spent on them. */
        CHECK_FIGURES,
        /** A claim may be open under the dated warranty. */
        ASK_MAKER,
        /** Order what the plan names. */
        ORDER,
        /** Keep large working files off the drive. */
        WRITE_LESS,
        /** Do not store it unpowered with data on it. */
        KEEP_POWERED,
        /** Install what was ordered. */
        REPLACE,
        /** Look at swap: small memory goes with more writes on this fleet. */
        MORE_MEMORY,
        /** Nothing, or too little, was reported. */
        GET_REPORT,
        /** Seen, but not in the inventory. */
        INVENTORY;

        /** What whoever uses the machine can do; the rest is IT's. */
        public boolean isForTheUser() {
            return switch (this) {
                case BACK_UP, CHECK_BACKUP, WRITE_LESS, KEEP_POWERED -> true;
                case CHECK_FIGURES, ASK_MAKER, ORDER, REPLACE, MORE_MEMORY, GET_REPORT, INVENTORY -> false;
            };
        }

        /** The outputs' words, such as {@code check backup}. */
        public String label() {
            return name().toLowerCase(Locale.ROOT).replace('_', ' ');
        }
    }
}
