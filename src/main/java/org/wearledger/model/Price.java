package org.wearledger.model;

import java.io.Serializable;
import java.math.BigDecimal;
import java.time.LocalDate;

/** One line of the {@code prices} table, which the budget uses; {@code labour} and {@code disposalFee} may be {@code null}. */
public record Price(String item, String currency, BigDecimal unitPrice, BigDecimal labour, BigDecimal disposalFee,
                    String supplier, LocalDate priceDate) implements Serializable {
}
