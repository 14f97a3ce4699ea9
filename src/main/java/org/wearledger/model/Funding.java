package org.wearledger.model;

import java.io.Serializable;
import java.math.BigDecimal;
import java.math.RoundingMode;

/**
 * What a period's money is the sum of, in the currency of the price list and in cents.
 *
 * @param identified repairs that the plan names, as decided
 * @param refresh machines that the plan names in place of repairs
 * @param further repairs that are expected beyond those named
 * @param machines what boards that turn out to be machines cost more, at the assumed share
 * @param reserve what suffices in four of five cases beyond all that
 * @param putOff the risk that what is put off or refused fails meanwhile
 * @param failures random failures
 * @param stock what is on hand already, to be taken off
 * @param packs what whole packs cost more, less what price breaks save
 * @param warranty what makers are expected to pay, to be taken off
 * @param vat on all that
 * @param relief of a fiscal year, with tax, what it needs less than its quarters: not every quarter has its bad case; 0 for a quarter
 * @param allMachines what it would cost more, with tax, if every such board were a machine
 * @param worst what suffices for wear in nine of ten cases if it were, with tax; before the funding request is held against it
 */
public record Funding(BigDecimal identified, BigDecimal refresh, BigDecimal further, BigDecimal machines, BigDecimal reserve, BigDecimal putOff, BigDecimal failures, BigDecimal stock,
                      BigDecimal packs, BigDecimal warranty, BigDecimal vat, BigDecimal relief, BigDecimal allMachines, BigDecimal worst) implements Serializable {
    /** Nothing of anything. */
    public static final Funding NONE = none();

    private static Funding none() {
        BigDecimal zero = BigDecimal.ZERO.setScale(2, RoundingMode.HALF_UP);
        return new Funding(zero, zero, zero, zero, zero, zero, zero, zero, zero, zero, zero, zero, zero, zero);
    }

    /** What is expected: named and further replacements. */
    public BigDecimal plan() {
        return identified.add(refresh).add(further);
    }

    /** Without tax. */
    public BigDecimal net() {
        return plan().add(machines).add(reserve).add(putOff).add(failures).subtract(stock).add(packs).subtract(warranty);
    }

    /** The funding request. */
    public BigDecimal request() {
        return net().add(vat).subtract(relief);
    }

    /** The worst case, which is not below the request. */
    public BigDecimal worstCase() {
        return worst.max(request());
    }

    /** Part by part; the worst case is that of this one. */
    public Funding plus(Funding o) {
        return new Funding(identified.add(o.identified), refresh.add(o.refresh), further.add(o.further), machines.add(o.machines), reserve.add(o.reserve), putOff.add(o.putOff), failures.add(o.failures),
            stock.add(o.stock), packs.add(o.packs), warranty.add(o.warranty), vat.add(o.vat), relief.add(o.relief), allMachines.add(o.allMachines), worst);
    }

    /** The same of several quarters, with their relief and worst case. */
    public Funding together(BigDecimal theirRelief, BigDecimal theirWorst) {
        return new Funding(identified, refresh, further, machines, reserve, putOff, failures, stock, packs, warranty, vat, theirRelief, allMachines, theirWorst);
    }
}
