package org.wearledger.assess;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.SplittableRandom;
import java.util.TreeSet;
import java.util.function.Consumer;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.statistics.distribution.ContinuousDistribution;
import org.apache.commons.statistics.distribution.GammaDistribution;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.wearledger.history.Sample;
import org.wearledger.model.DriveHistory;
import org.wearledger.model.DriveId;
import org.wearledger.model.HistoryPoint;

/**
 * A kind of fleet, drawn month by month by rules of its own: neither the wear model's, save where a row says so, nor those of the
 * simulated fleets of the program. A drive's log rate has a level, wanders, jumps with its user, follows a season and shares shocks;
 * a month's writes are lognormal about it.
 */
final class Scenario {
    /** Of each drive, in terabytes. */
    static final double RATED = 300;
    static final LocalDate AS_OF = LocalDate.of(2025, 1, 1);
    static final int MONTHS_AHEAD = 360;
    private static final int MONTHS_SEEN = 132;

    final String name;
    int drives = 250;
    int fleets = 1;
    int readings = 8;
    int monthsApart = 3;
    boolean dated = true;
    double dateKnown = 1;
    boolean gammaProcess;
    double logSd = 0.8;
    double typical = 0.04;
    double monthSd = 0.8;
    double drift;
    double switches;
    double season;
    double seasonPhase;
    double shock;
    double idle;
    double gaps;
    int stale;
    int models = 1;
    double modelSd;
    boolean bytes = true;
    double controller;
    double wander;
    double trend;
    double hoursADay;

    private Scenario(String name) {
        this.name = name;
    }

    static Scenario of(String name, Consumer<Scenario> changes) {
        Scenario scenario = new Scenario(name);
        changes.accept(scenario);
        return scenario;
    }

    /**
     * One drive as it was reported, and when it will cross.
     *
     * @param crossedAfter quarters from its latest report to the rating (to the controller's 100 %, where that is what it is about);
     *     infinite when not within thirty years; at most 0 when crossed
     */
    record Seen(DriveHistory history, LocalDate inServiceOn, double crossedAfter) {
    }

    List<Seen> draw(long seed) {
        return draw(seed, drives);
    }

    /** The same with another number of drives. */
    List<Seen> draw(long seed, int number) {
        return new Draw(new SplittableRandom(seed)::nextLong).fleet(number);
    }

    private final class Draw {
        private final UniformRandomProvider random;
        private final ContinuousDistribution.Sampler normal;

        Draw(UniformRandomProvider random) {
            this.random = random;
            normal = NormalDistribution.of(0, 1).createSampler(random);
        }

        List<Seen> fleet(int number) {
            double[] common = new double[MONTHS_SEEN + MONTHS_AHEAD];
            for (int m = 1; m < common.length; m++) {
                common[m] = common[m - 1] + (m % 3 == 0 ? shock * normal.sample() : 0);
            }
            double now = common[MONTHS_SEEN];
            for (int m = 0; m < common.length; m++) {
                common[m] += season * Math.sin(2 * Math.PI * (m / 12.0 + seasonPhase)) - now;
            }
            double[] offsets = normal.samples(models).map(z -> modelSd * z).toArray();
            List<Seen> fleet = new ArrayList<>();
            for (int i = 0; i < number; i++) {
                fleet.add(drive(i, common, offsets[i % models]));
            }
            return fleet;
        }

        private Seen drive(int i, double[] common, double offset) {
            int age = Math.min(MONTHS_SEEN, Math.max(12 + random.nextInt(37), (readings - 1) * monthsApart + 3 + stale));
            int born = MONTHS_SEEN - age;
            double level = Math.log(typical / 3) + offset + (gammaProcess ? -Math.log(GammaDistribution.of(3, 1 / 3.0).createSampler(random).sample())
                : logSd * normal.sample());
            double amplification = Math.log(controller == 0 ? 1 : controller) + 0.3 * normal.sample();
            double[] written = new double[age + MONTHS_AHEAD + 1];
            double[] used = new double[written.length];
            for (int m = 0; m < age + MONTHS_AHEAD; m++) {
                written[m + 1] = written[m] + month(level + common[born + m]);
                used[m + 1] = used[m] + (written[m + 1] - written[m]) * Math.exp(amplification);
                level += drift / Math.sqrt(3) * normal.sample();
                if (random.nextDouble() < switches / 3) {
                    level += random.nextBoolean() ? Math.log(3) : -Math.log(3);
                }
                amplification += wander / Math.sqrt(3) * normal.sample() + trend / 3;
            }
            return reported(i, age, written, used);
        }

        private double month(double logRate) {
            if (random.nextDouble() < idle) {
                return 0;
            }
            return gammaProcess ? GammaDistribution.of(2.5 / 3, Math.exp(logRate) * 3 / 2.5).createSampler(random).sample()
                : Math.exp(logRate + monthSd * normal.sample() - monthSd * monthSd / 2);
        }

        private Seen reported(int i, int age, double[] written, double[] used) {
            int latest = age - (stale == 0 ? 0 : random.nextInt(stale + 1));
            TreeSet<Integer> months = new TreeSet<>(List.of(latest));
            for (int r = 1; r < readings; r++) {
                int month = latest - r * monthsApart + (gaps > 0 ? random.nextInt(3) - 1 : 0);
                if (month > 0 && !(random.nextDouble() < gaps)) {
                    months.add(month);
                }
            }
            double share = hoursADay / 24 * Math.exp(0.5 * normal.sample());
            DriveId id = new DriveId("MODEL " + i % models, String.format(Locale.ROOT, "%05d", i));
            List<HistoryPoint> points = new ArrayList<>();
            for (int month : months) {
                Sample sample = Sample.at(at(month - age).toString()).machine("PC-" + i).serial(id.serial());
                sample = bytes ? sample.terabytes(written[month] * RATED) : sample;
                sample = controller > 0 ? sample.used((int) Math.min(255, 100 * used[month])) : sample;
                sample = hoursADay > 0 ? sample.hours(Math.round(Math.min(1, share) * month * 30.4375 * 24)) : sample;
                points.add(new HistoryPoint(sample.reading(), 0, sample.reading().health().bytesWritten()));
            }
            boolean known = dated && random.nextDouble() < dateKnown;
            return new Seen(new DriveHistory(id, points), known ? LocalDate.ofInstant(at(-age), ZoneOffset.UTC) : null,
                crossing(controller > 0 ? used : written, latest));
        }

        private Instant at(int month) {
            return AS_OF.atStartOfDay(ZoneOffset.UTC).toInstant().plusMillis(Math.round(month / 3.0 * WearPast.MILLIS_PER_QUARTER));
        }

        private double crossing(double[] path, int latest) {
            for (int m = 1; m < path.length; m++) {
                if (path[m] >= 1) {
                    return (m - 1 + (1 - path[m - 1]) / (path[m] - path[m - 1]) - latest) / 3;
                }
            }
            return Double.POSITIVE_INFINITY;
        }
    }
}
