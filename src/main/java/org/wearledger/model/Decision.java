package org.wearledger.model;

import java.io.Serializable;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/**
 * One row of the {@code decisions} table: what was done or settled about one machine. All but machine, state and date may be {@code null}.
 *
 * @param date when it was decided; a drive that came later is not meant
 * @param until the last day that {@link State#ACCEPTED} and {@link State#DEFERRED} hold
 * @param item as the price list names it; {@code null} for whatever the plan has for the machine
 * @param cost what was paid, in the currency of the price list
 */
public record Decision(String machineId, State state, LocalDate date, LocalDate until, String item, BigDecimal cost, String note) implements Serializable {
    /** How far it is. */
    public enum State {
        /** Bought, not here yet. */
        ORDERED,
        /** Here, not fitted yet. */
        DELIVERED,
        /** The maker was asked for a replacement. */
        CLAIMED,
        /** The risk is taken until a day. */
        ACCEPTED,
        /** The purchase waits until a day. */
        DEFERRED,
        /** The purchase was refused. */
        REJECTED;

        /** The table's word, such as {@code ordered}. */
        public String label() {
            return name().toLowerCase(Locale.ROOT);
        }

        /** The state of this {@linkplain #label word}, whatever its case. */
        public static Optional<State> of(String word) {
            return Arrays.stream(values()).filter(state -> state.label().equals(word.strip().toLowerCase(Locale.ROOT))).findFirst();
        }

        /** Whether it holds up to a day, and then no more. */
        public boolean hasEnd() {
            return this == ACCEPTED || this == DEFERRED;
        }

        /** Whether a new part is on its way or here. */
        public boolean isBought() {
            return this == ORDERED || this == DELIVERED;
        }
    }
}
