package org.wearledger.assess;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.TreeMap;
import org.wearledger.model.Attachment;
import org.wearledger.model.Drive;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.Endurance;
import org.wearledger.model.Health;
import org.wearledger.model.HealthField;
import org.wearledger.model.Machine;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.Projection;
import org.wearledger.model.Reading;
import org.wearledger.model.SourcePlace;
import org.wearledger.model.Standing;

/**
 * A repair chain of which the truth is known: 6,000 laptops of 60 models in 12 shops, nearly all read once, 70 % without an in-service date. Users'
 * writes per hour are log-normal. Five models write three times as much as others and six 1.5 times; three are sold with little memory, and three in two
 * shops whose customers write much. Of 25 drive models one lasts a third of its rating, and three half of the rating that is assumed for them.
 */
final class Chain {
    static final int MACHINES = 6_000;
    static final int MODELS = 60;
    static final int DRIVE_MODELS = 25;
    static final int TRIPLE = 5;
    static final int STANDING_OUT = 11;
    static final int ONLY_BY_MEMORY = 14;
    static final int ONLY_BY_SHOP = 17;
    static final int LASTS_A_THIRD = 3;
    private static final int ASSUMED_FROM = 20;
    private static final int LAST_HALF_UNTIL = 23;
    static final int SHOPS = 12;
    private static final int[] GIGABYTES = {128, 256, 512, 1024};
    private static final int[] GIBIBYTES = {4, 8, 16, 32};
    private static final double[] BY_MEMORY = {2.2, 1.4, 1, 1};
    private static final Instant AT = Instant.parse("2025-04-01T00:00:00Z");

    final List<MachineAssessment> machines = new ArrayList<>();
    /** By name of the machine model. */
    final Map<String, Double> trueFactors = new TreeMap<>();

    /** By shop. */
    final double[] shopFactors = new double[SHOPS];

    private final SplittableRandom random;

    Chain(long seed) {
        random = new SplittableRandom(seed);
        for (int shop = 0; shop < SHOPS; shop++) {
            shopFactors[shop] = shop < 2 ? 2.5 : Math.exp(0.15 * random.nextGaussian());
        }
        int[] usualShop = new int[MODELS];
        double[] popularity = new double[MODELS];
        for (int model = 0; model < MODELS; model++) {
            trueFactors.put(name(model), model < TRIPLE ? 3 : model < STANDING_OUT ? 1.5 : 1.0);
            usualShop[model] = random.nextInt(SHOPS);
            popularity[model] = Math.exp(0.25 * random.nextGaussian());
        }
        double total = java.util.Arrays.stream(popularity).sum();
        for (int i = 0; i < MACHINES; i++) {
            double point = random.nextDouble() * total;
            int model = 0;
            while (model < MODELS - 1 && point >= popularity[model]) {
                point -= popularity[model++];
            }
            boolean onlyByMemory = model >= STANDING_OUT && model < ONLY_BY_MEMORY;
            boolean onlyByShop = model >= ONLY_BY_MEMORY && model < ONLY_BY_SHOP;
            int memory = onlyByMemory ? random.nextInt(10) < 9 ? 0 : 1 : List.of(0, 1, 1, 1, 2, 2, 2, 2, 3, 2).get(random.nextInt(10));
            int shop = onlyByShop && random.nextInt(10) < 9 ? random.nextInt(2) : random.nextInt(4) == 0 ? usualShop[model] : random.nextInt(SHOPS);
            double factor = trueFactors.get(name(model)) * BY_MEMORY[memory] * shopFactors[shop];
            machines.add(machine(i, model, memory, shop, factor));
        }
    }

    static String name(int model) {
        return "Laptop " + (char) ('A' + model / 10) + model % 10;
    }

    static String driveName(int driveModel) {
        return "Drive " + (char) ('A' + driveModel / 5) + driveModel % 5;
    }

    /** Of the rating. */
    static double trueEndurance(int driveModel) {
        return driveModel == LASTS_A_THIRD ? 1 / 3.0 : driveModel >= ASSUMED_FROM && driveModel < LAST_HALF_UNTIL ? 0.5 : 1;
    }

    private MachineAssessment machine(int i, int model, int memory, int shop, double factor) {
        int driveModel = (model * 7 + random.nextInt(4)) % DRIVE_MODELS;
        int gigabytes = GIGABYTES[driveModel % 4];
        double rated = 0.6 * gigabytes;
        double lasts = rated * trueEndurance(driveModel) * Math.exp(0.25 * random.nextGaussian());
        double years = 0.5 + 5.5 * random.nextDouble();
        double hoursADay = 24 * 0.25 * Math.exp(0.5 * random.nextGaussian());
        long hours = Math.round(Math.min(24, hoursADay) * 365.25 * years);
        double terabytes = hours * 0.004 * Math.exp(0.6 * random.nextGaussian()) * factor;
        int used = (int) Math.min(255, Math.floor(100 * terabytes / lasts));
        boolean dated = random.nextInt(10) < 3;
        double gigabytesPerDay = terabytes * 1000 / (dated ? years * 365.25 : hours / 6.0);
        Machine machine = new Machine("M" + i, null, "Shop " + shop, null, name(model), (long) GIBIBYTES[memory] << 30, null, null);
        Drive drive = new Drive("S" + i, driveName(driveModel), null, gigabytes * 1_000_000_000L, Attachment.SOCKETED);
        BigInteger bytes = BigInteger.valueOf(Math.round(terabytes * 1e12));
        Reading reading = new Reading(SourcePlace.wholeFile("x"), AT, machine, drive,
            Health.builder().set(HealthField.POWER_ON_HOURS, hours).set(HealthField.PERCENTAGE_USED, used).build());
        DriveAssessment assessment = new DriveAssessment(drive.id(), reading, new DriveAssessment.Seen(null, AT, 1, 1),
            new DriveAssessment.Wear(bytes, new Endurance(BigDecimal.valueOf(rated), driveModel >= ASSUMED_FROM, null, "x"), 100 * terabytes / rated, rated - terabytes,
                DriveAssessor.impliedEnduranceTerabytes(bytes, used)),
            new DriveAssessment.Pace(null, gigabytesPerDay, null), new DriveAssessment.Outlook(new Projection.None("none"), null, null), Standing.WATCH, "");
        return new MachineAssessment(machine, Attachment.SOCKETED, List.of(assessment), Standing.WATCH, "", AT, true, null, null, true);
    }
}
