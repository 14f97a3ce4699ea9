package org.wearledger.model;

import java.io.Serializable;
import java.util.List;

/** Good values and problems side by side. */
public record Outcome<T extends Serializable>(List<T> values, List<Problem> problems) implements Serializable {
    public Outcome {
        values = List.copyOf(values);
        problems = List.copyOf(problems);
    }

    /** No values and no problems. */
    public static <T extends Serializable> Outcome<T> empty() {
        return new Outcome<>(List.of(), List.of());
    }
}
