package org.wearledger.model;

import java.io.Serializable;
import java.time.LocalDate;

/** When a drive reaches its rated endurance, or why no date is given. */
public sealed interface Projection extends Serializable {

    /** The date, {@code null} when none is given. */
    default LocalDate dateOrNull() {
        return null;
    }

    /** What the date rests on, or why there is none. */
    String basis();

    /**
     * The straight line meets the rating on a date to come.
     *
     * @param beyondEvidence the date lies further ahead than three times the observed history
     */
    record Reaches(LocalDate date, String basis, boolean beyondEvidence) implements Projection {
        @Override
        public LocalDate dateOrNull() {
            return date;
        }
    }

    /** Past already, first seen so at {@code seenOn}; {@code lastBelowOn} is {@code null} when no earlier reading was below. */
    record AlreadyPast(LocalDate lastBelowOn, LocalDate seenOn) implements Projection {
        @Override
        public String basis() {
            return lastBelowOn == null ? "already past at the first reading, " + seenOn
                : "crossed between " + lastBelowOn + " and " + seenOn;
        }
    }

    /** No date can or need be given. */
    record None(String basis) implements Projection {
    }
}
