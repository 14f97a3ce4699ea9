package org.wearledger.model;

import java.io.Serializable;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;

/** One line of the {@code prices} table, which the budget uses; {@code labour} and {@code disposalFee} may be {@code null}. */
public record Price(String item, String currency, BigDecimal unitPrice, BigDecimal labour, BigDecimal disposalFee,
                    String supplier, LocalDate priceDate) implements Serializable {
    /** Unit price + labour + disposal fee, each rounded half up to cents by itself. Example: 39 + 45.005 + none is 84.01. */
    public BigDecimal costOfOne() {
        return cents(unitPrice).add(cents(labour)).add(cents(disposalFee));
    }

    /** Whether an item is a board, with or without a machine's model, in whatever letters the price list has: {@code Board Torvane 14}. */
    public static boolean isBoard(String item) {
        return DriveId.fold(item).startsWith("BOARD");
    }

    private static BigDecimal cents(BigDecimal amount) {
        return (amount == null ? BigDecimal.ZERO : amount).setScale(2, RoundingMode.HALF_UP);
    }
}
