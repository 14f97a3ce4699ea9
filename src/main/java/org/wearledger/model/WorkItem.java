package org.wearledger.model;

import java.io.Serializable;
import java.time.LocalDate;
import java.util.Locale;

/** One thing to do for one machine. */
public record WorkItem(LocalDate byOn, Action action, Machine machine, Standing standing, String what, String why)
    implements Serializable {
    /** In the order of one day's work: backup before anything else. */
    public enum Action {
        BACK_UP, CHECK_BACKUP, ASK_MAKER, ORDER, SPARE_WRITES, KEEP_POWERED, REPLACE, MORE_MEMORY, GET_REPORT, INVENTORY;

        public String label() {
            return name().toLowerCase(Locale.ROOT).replace('_', ' ');
        }
    }
}
