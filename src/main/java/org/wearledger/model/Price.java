package org.wearledger.model;

import java.io.Serializable;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;

/**
 * One line of the {@code prices} table, which the budget uses; {@code labour} and {@code disposalFee} may be {@code null}. Its amounts are in its
 * own currency; what is worked out from them is in that of the whole list.
 */
public record Price(String item, String currency, BigDecimal unitPrice, BigDecimal labour, BigDecimal disposalFee,
                    String supplier, LocalDate priceDate, Terms terms) implements Serializable {
    /** Without terms of purchase. */
    public Price(String item, String currency, BigDecimal unitPrice, BigDecimal labour, BigDecimal disposalFee, String supplier, LocalDate priceDate) {
        this(item, currency, unitPrice, labour, disposalFee, supplier, priceDate, Terms.NONE);
    }

    /**
     * How it is bought and booked.
     *
     * @param exchangeRate what one unit of the row's currency is in that of the list; {@code null} for 1
     * @param packSize smallest number sold together
     * @param breakQuantity number from which {@code breakPrice} counts, which is {@code null} for none
     * @param stock on hand
     * @param account that finance books it to, with {@code capexOrOpex} passed through; both may be {@code null}
     */
    public record Terms(BigDecimal exchangeRate, int packSize, int breakQuantity, BigDecimal breakPrice, int stock, String account, String capexOrOpex) implements Serializable {
        /** Bought one by one in the list's currency, none on hand. */
        public static final Terms NONE = new Terms(null, 1, 0, null, 0, null, null);
    }

    /** Unit price + labour + disposal fee in the list's currency, each rounded half up to cents by itself. Example: 39 + 45.005 + none is 84.01. */
    public BigDecimal costOfOne() {
        return costOfUnit().add(converted(labour)).add(converted(disposalFee));
    }

    /** The unit price in the list's currency, in cents. */
    public BigDecimal costOfUnit() {
        return converted(unitPrice);
    }

    /** An amount of this row in the list's currency, in cents; 0.00 for {@code null}. */
    public BigDecimal converted(BigDecimal amount) {
        return (amount == null ? BigDecimal.ZERO : amount.multiply(rate())).setScale(2, RoundingMode.HALF_UP);
    }

    /** What one unit of its currency is in that of the list. */
    public BigDecimal rate() {
        return terms.exchangeRate == null ? BigDecimal.ONE : terms.exchangeRate;
    }

    /** Whether an item is a board, with or without a machine's model, in whatever letters the price list has: {@code Board Torvane 14}. */
    public static boolean isBoard(String item) {
        return DriveId.fold(item).startsWith("BOARD");
    }
}
