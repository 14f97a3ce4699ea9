package org.wearledger.stats;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.TreeMap;

/**
 * Probability of an end by each of several causes up to an age, from subjects seen over part of their age only: the estimator of Aalen and
 * Johansen. With one cause, 1 less the probability is the product limit of Kaplan and Meier.
 *
 * <p>At each age t at which d of the Y subjects at risk end, d_k by cause k: F_k rises by S d_k / Y and S is multiplied by 1 - d / Y. A subject is
 * at risk after its entry, up to and with its exit; so one that leaves unharmed at t is still at risk for an end at t, and one that enters at t is not.
 * The variance is that of Greenwood and Aalen: the d_k are multinomial at each age, and their covariance, S^2 (d_k / Y) (1 - d_k / Y) / Y and
 * -S^2 (d_j / Y) (d_k / Y) / Y, is carried on through later ages.
 *
 * <ul>
 *   <li>no subjects, or an age before the first end: survival 1, incidence 0, deviation 0
 *   <li>all at risk end at one age: survival is 0 from there on, even if others enter later; give subjects a later entry then
 * </ul>
 *
 * <p>Andersen, Borgan, Gill and Keiding, Statistical Models Based on Counting Processes (1993), IV.3 and IV.4, with ties as in 4.1.20; entry after
 * the start: III.3.
 */
public final class CumulativeIncidence {
    /**
     * What was seen of one subject.
     *
     * @param entry age when it came under observation
     * @param exit age when it ended or was last seen
     * @param cause 1 or more; 0 when it was last seen unharmed
     */
    public record Subject(double entry, double exit, int cause) {
        /** @throws IllegalArgumentException unless entry is below exit, both are finite, and the cause is not negative */
        public Subject {
            if (!(entry < exit) || Double.isInfinite(entry) || Double.isInfinite(exit) || cause < 0) {
                throw new IllegalArgumentException("entry must be below exit and cause not negative: " + entry + ", " + exit + ", " + cause);
            }
        }
    }

    /** A probability with its standard error. */
    public record Estimate(double probability, double deviation) {
        /**
         * The interval whose ends are normal on the scale log(-log p): p to the power exp(-+z deviation / (p log p)). Both ends are p where p is 0 or
         * 1. Kalbfleisch and Prentice, The Statistical Analysis of Failure Time Data, 2nd ed. (2002), 1.4.
         */
        public Bounds bounds(double confidence) {
            if (!(probability > 0 && probability < 1)) {
                return new Bounds(probability, probability);
            }
            double reach = Checked.twoSidedZ(confidence) * deviation / (probability * -Math.log(probability));
            return new Bounds(Math.pow(probability, Math.exp(reach)), Math.pow(probability, Math.exp(-reach)));
        }
    }

    /** An age at which subjects end. {@code endsByCause} holds all ends at 0. */
    private record Ends(double age, int atRisk, int[] endsByCause) {
    }

    /** After an age; {@code withSurvival} are covariances with the survival's estimate. Survival stands at 0 of each array. */
    private record State(double[] probability, double[] variance, double[] withSurvival) {
    }

    private final int causes;
    private final List<Ends> ends;
    private final TreeMap<Double, State> states = new TreeMap<>();

    private CumulativeIncidence(int causes, List<Ends> ends) {
        this.causes = causes;
        this.ends = ends;
        State state = new State(new double[causes + 1], new double[causes + 1], new double[causes + 1]);
        state.probability[0] = 1;
        states.put(Double.NEGATIVE_INFINITY, state);
        for (Ends next : ends) {
            state = after(state, next);
            states.put(next.age, state);
        }
    }

    /**
     * The estimate from these subjects, in any order.
     *
     * @param causes how many there are
     * @throws IllegalArgumentException when a subject's cause is above {@code causes}
     */
    public static CumulativeIncidence of(Collection<Subject> subjects, int causes) {
        double[] entries = subjects.stream().mapToDouble(Subject::entry).sorted().toArray();
        double[] exits = subjects.stream().mapToDouble(Subject::exit).sorted().toArray();
        TreeMap<Double, int[]> counts = new TreeMap<>();
        for (Subject subject : subjects) {
            if (subject.cause > causes) {
                throw new IllegalArgumentException("cause " + subject.cause + " is above " + causes);
            }
            if (subject.cause > 0) {
                int[] count = counts.computeIfAbsent(subject.exit, age -> new int[causes + 1]);
                count[0]++;
                count[subject.cause]++;
            }
        }
        List<Ends> ends = new ArrayList<>();
        int entered = 0;
        int left = 0;
        for (var count : counts.entrySet()) {
            double age = count.getKey();
            while (entered < entries.length && entries[entered] < age) {
                entered++;
            }
            while (exits[left] < age) {
                left++;
            }
            ends.add(new Ends(age, entered - left, count.getValue()));
        }
        return new CumulativeIncidence(causes, ends);
    }

    /** Probability of no end up to an age. */
    Estimate survival(double age) {
        return estimate(0, age);
    }

    /** Probability of an end by this cause, from 1, up to an age. */
    public Estimate incidence(int cause, double age) {
        if (cause < 1 || cause > causes) {
            throw new IllegalArgumentException("cause must be 1 to " + causes + ", not " + cause);
        }
        return estimate(cause, age);
    }

    /** Ends seen by this cause; 0 stands for all causes. */
    public int ends(int cause) {
        return ends.stream().mapToInt(each -> each.endsByCause[cause]).sum();
    }

    /** The ages at which subjects end, rising; between them the estimates stay as they are. */
    public double[] ages() {
        return ends.stream().mapToDouble(Ends::age).toArray();
    }

    private Estimate estimate(int which, double age) {
        State state = states.floorEntry(age).getValue();
        return new Estimate(state.probability[which], Math.sqrt(Math.max(0, state.variance[which])));
    }

    private static State after(State before, Ends next) {
        State state = new State(before.probability.clone(), before.variance.clone(), before.withSurvival.clone());
        double survival = before.probability[0];
        double kept = (double) (next.atRisk - next.endsByCause[0]) / next.atRisk;
        double unit = survival * survival / next.atRisk;
        for (int k = 1; k < state.probability.length; k++) {
            double share = (double) next.endsByCause[k] / next.atRisk;
            state.probability[k] += survival * share;
            state.variance[k] += share * (2 * before.withSurvival[k] + share * before.variance[0]) + unit * share * (1 - share);
            state.withSurvival[k] = kept * (before.withSurvival[k] + share * before.variance[0] - unit * share);
        }
        state.probability[0] = survival * kept;
        state.variance[0] = kept * (kept * before.variance[0] + unit * (1 - kept));
        return state;
    }
}
