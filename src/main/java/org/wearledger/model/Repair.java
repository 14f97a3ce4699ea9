package org.wearledger.model;

import java.io.Serializable;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/**
 * One row of the {@code repairs} table; {@code driveSerial}, {@code site}, {@code action} and {@code cost} may be {@code null}.
 *
 * @param driveSerial of the drive that the machine came in with
 * @param site of the shop; else the machine's own counts
 * @param action what was done; where something was fitted, the price list's name of it
 * @param cost in the currency of the price list
 */
public record Repair(String ticket, String machineId, String driveSerial, String site, LocalDate date, Reason reason, String action, BigDecimal cost)
    implements Serializable {
    /** Why a machine came in, or left. */
    public enum Reason {
        /** The drive was worn, and was replaced before it failed. */
        WORN,
        /** The drive no longer worked. */
        DEAD_DRIVE,
        /** The board's supply of current, not the drive. */
        SUPPLY_CIRCUIT,
        /** Any other fault. */
        OTHER_FAULT,
        /** The machine was taken out of use. */
        WITHDRAWN,
        /** The machine was sold. */
        SOLD;

        /** Whether the drive that came in is in use no longer. */
        public boolean endsDrive() {
            return this == WORN || this == DEAD_DRIVE || endsMachine();
        }

        /** Whether the machine is expected no longer. */
        public boolean endsMachine() {
            return this == WITHDRAWN || this == SOLD;
        }

        /** The table's word, such as {@code dead drive}. */
        public String label() {
            return name().toLowerCase(Locale.ROOT).replace('_', ' ');
        }

        /** The reason of this {@linkplain #label word}, whatever its case. */
        public static Optional<Reason> of(String word) {
            return Arrays.stream(values()).filter(reason -> reason.label().equals(word.toLowerCase(Locale.ROOT))).findFirst();
        }
    }
}
