package org.wearledger.model;

import java.io.Serializable;
import java.util.List;

/**
 * How often drives fail without being worn, as the table of repairs and the reports tell it.
 *
 * @param basis what the rates rest on, or why there are none
 * @param failures of drives that came in dead and were not worn
 * @param driveYears over which they came
 * @param perMachineYear what the budget allows for, {@code NaN} without a rate
 * @param models by name; empty without a rate
 * @param incidences by cause, then by age; empty when fewer than {@value #LEAST} failures of any cause fell on drives seen before
 */
public record Failures(Basis basis, int failures, double driveYears, double perMachineYear, List<OfModel> models, List<Incidence> incidences)
    implements Serializable {
    /** With fewer nothing is learned. */
    public static final int LEAST = 20;

    /** What a rate rests on, or why there is none. */
    public enum Basis {
        /** Drives followed from report to report until they failed. */
        FOLLOWED,
        /** The number of drives in the field, as the ratings table gives it. */
        IN_FIELD,
        /** There are fewer than {@value Failures#LEAST} failures. */
        TOO_FEW,
        /** Most machines were seen only when they came in, so nobody knows how many did not fail. */
        NOT_FOLLOWED
    }

    /** Why a drive, or what is around it, failed. */
    public enum Cause {
        /** The drive was worn, before it failed or when it did. */
        WORN("worn"),
        /** The drive failed and was not worn. */
        DEAD_NOT_WORN("dead, not worn"),
        /** The board's supply of current. */
        SUPPLY_CIRCUIT("supply circuit"),
        /** Another fault of the machine. */
        OTHER_FAULT("other fault");

        private final String label;

        Cause(String label) {
            this.label = label;
        }

        /** The outputs' words. */
        public String label() {
            return label;
        }
    }

    /**
     * Failures of one drive model, drawn towards the rate of all.
     *
     * @param perYear of one drive, with its 95 % interval
     */
    public record OfModel(String driveModel, double perYear, Interval perYear95) implements Serializable {
    }

    /**
     * Share of drives that failed by this cause before any other until an age, of those that had come unharmed to {@code fromHours}.
     *
     * @param fromHours power-on hours from which enough drives were seen
     * @param powerOnHours the age
     * @param failures by this cause until then
     * @param probability95 {@code null} for too few failures
     */
    public record Incidence(Cause cause, double fromHours, double powerOnHours, int failures, double probability, Interval probability95) implements Serializable {
    }

    public Failures {
        models = List.copyOf(models);
        incidences = List.copyOf(incidences);
    }

    /** Nothing learned, for this reason. */
    public static Failures none(Basis basis) {
        return new Failures(basis, 0, 0, Double.NaN, List.of(), List.of());
    }

    /** Whether there is a rate. */
    public boolean isLearned() {
        return basis == Basis.FOLLOWED || basis == Basis.IN_FIELD;
    }
}
