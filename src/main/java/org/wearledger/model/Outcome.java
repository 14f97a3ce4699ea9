package org.wearledger.model;

import java.io.Serializable;
import java.util.ArrayList;
import java.util.List;

/** Good values and problems side by side; {@link #combine} is associative, with {@link #empty()} as its unit. */
public record Outcome<T extends Serializable>(List<T> values, List<Problem> problems) implements Serializable {
    public Outcome {
        values = List.copyOf(values);
        problems = List.copyOf(problems);
    }

    /** No values and no problems. */
    public static <T extends Serializable> Outcome<T> empty() {
        return new Outcome<>(List.of(), List.of());
    }

    /** The values and problems of both, these first. */
    public Outcome<T> combine(Outcome<T> other) {
        List<T> allValues = new ArrayList<>(values);
        allValues.addAll(other.values);
        List<Problem> allProblems = new ArrayList<>(problems);
        allProblems.addAll(other.problems);
        return new Outcome<>(allValues, allProblems);
    }
}
