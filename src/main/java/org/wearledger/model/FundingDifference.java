package org.wearledger.model;

import java.io.Serializable;
import java.math.BigDecimal;
import java.util.Locale;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** What is to be asked for in a period of two budgets, where it differs. */
public record FundingDifference(SweepSnapshot.Ask before, SweepSnapshot.Ask now) implements Serializable {
    /** False where the name stands for another time by now, as all quarters do. */
    public boolean hasSameEnd() {
        return before.until().equals(now.until());
    }

    /** Now less then. */
    public BigDecimal delta() {
        return now.amount().subtract(before.amount());
    }

    /**
     * The parts that differ, such as {@code plan +46.50, random failures +0.66}; they add up to the whole. A part that could not be worked
     * out for want of a price counts 0, as in the whole, and that is said. Empty when the parts of either are not known.
     */
    public String parts() {
        return before.parts() == null || now.parts() == null ? ""
            : Stream.of(part("plan", SweepSnapshot.Parts::plan), part("risk reserve", SweepSnapshot.Parts::contingencyForWear),
                part("boards that turn out to be machines", SweepSnapshot.Parts::contingencyForPrices), part("random failures", SweepSnapshot.Parts::allowance), others())
                .filter(part -> !part.isEmpty()).collect(Collectors.joining(", "));
    }

    private String part(String name, Function<SweepSnapshot.Parts, BigDecimal> part) {
        BigDecimal was = part.apply(before.parts());
        BigDecimal is = part.apply(now.parts());
        BigDecimal delta = orZero(is).subtract(orZero(was));
        boolean alike = delta.signum() == 0 && (was == null) == (is == null);
        return alike ? "" : name + " " + signed(delta) + (was == null ? " (not known then)" : is == null ? " (not known now)" : "");
    }

    /** What the other parts leave of the difference. */
    private String others() {
        BigDecimal delta = others(now).subtract(others(before));
        return delta.signum() == 0 ? "" : "other parts " + signed(delta);
    }

    private static BigDecimal others(SweepSnapshot.Ask ask) {
        SweepSnapshot.Parts parts = ask.parts();
        return Stream.of(parts.plan(), parts.contingencyForWear(), parts.contingencyForPrices(), parts.allowance()).map(FundingDifference::orZero).reduce(ask.amount(), BigDecimal::subtract);
    }

    private static BigDecimal orZero(BigDecimal part) {
        return part == null ? BigDecimal.ZERO : part;
    }

    /** Example: {@code -22.84}. */
    public static String signed(BigDecimal amount) {
        return String.format(Locale.ROOT, "%+,.2f", amount);
    }
}
