package org.wearledger.model;

import java.io.Serializable;
import java.math.BigDecimal;
import java.util.Locale;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** What is to be asked for in a period of two budgets, where it differs. */
public record AskChange(SweepSnapshot.Ask before, SweepSnapshot.Ask now) implements Serializable {
    /** False where the name stands for another time by now, as all quarters do. */
    public boolean hasSameEnd() {
        return before.until().equals(now.until());
    }

    /** Example: {@code -22.84}. */
    public String delta() {
        return signed(now.amount().subtract(before.amount()));
    }

    /** The parts that differ, such as {@code plan +46.50, allowance +0.66}; they add up to the whole. Empty when those of either are not known. */
    public String parts() {
        return before.parts() == null || now.parts() == null ? ""
            : Stream.of(part("plan", SweepSnapshot.Parts::plan), part("contingency for more wear", SweepSnapshot.Parts::contingencyForWear),
                part("contingency for dearer choices", SweepSnapshot.Parts::contingencyForPrices), part("allowance", SweepSnapshot.Parts::allowance))
                .filter(part -> !part.isEmpty()).collect(Collectors.joining(", "));
    }

    private String part(String name, Function<SweepSnapshot.Parts, BigDecimal> part) {
        BigDecimal delta = part.apply(now.parts()).subtract(part.apply(before.parts()));
        return delta.signum() == 0 ? "" : name + " " + signed(delta);
    }

    private static String signed(BigDecimal amount) {
        return String.format(Locale.ROOT, "%+,.2f", amount);
    }
}
