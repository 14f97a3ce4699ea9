package org.wearledger.model;

import java.io.Serializable;
import java.math.BigDecimal;

/**
 * What a cost centre is asked for in one period: what its own lines cost, and its share, by machines, of what no line causes.
 *
 * @param machines of the cost centre
 * @param own of its lines, with tax: amounts, boards that turn out to be machines, the risk of what is put off, less the expected warranty recovery
 * @param shared of the rest of the funding request, divided by machines; those of all cost centres add up to the cent
 */
public record CentreFunding(CostCentre centre, String period, int machines, BigDecimal own, BigDecimal shared) implements Serializable {
    /** Its part of the funding request. */
    public BigDecimal request() {
        return own.add(shared);
    }
}
