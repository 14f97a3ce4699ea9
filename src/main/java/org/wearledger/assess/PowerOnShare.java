package org.wearledger.assess;

import java.io.Serializable;
import java.util.Arrays;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.wearledger.stats.InexactDuration;
import org.wearledger.stats.RandomEffects;
import org.wearledger.stats.RandomEffects.Estimate;
import org.wearledger.stats.Steps;

/**
 * Which part of the day this fleet's machines run: power-on hours are no calendar. Learned from the drives that tell both hours and time, by an
 * in-service date or by two readings; five more with the assumed median and spread are added, so that few decide little and none gives the assumed.
 *
 * <p>Logarithms of the share are taken as normal. A machine model's mean is drawn towards the fleet's by random effects.
 *
 * @param meanLog mean of the logarithm of the share
 * @param deviation of that logarithm between machines
 * @param byMachineModel mean and deviation for the models that tell their own, by name
 */
record PowerOnShare(double meanLog, double deviation, Map<String, Estimate> byMachineModel) implements Serializable {
    /** Nothing told: a quarter of the day, within a factor of e^0.5, 1.65, in two cases of three. */
    static final PowerOnShare ASSUMED = new PowerOnShare(Math.log(0.25), 0.5, Map.of());
    private static final int ASSUMED_DRIVES = 5;
    private static final int LEAST_DRIVES_OF_MODEL = 2;

    PowerOnShare {
        byMachineModel = Map.copyOf(byMachineModel);
    }

    /** Of this fleet; the order of the drives changes no digit. */
    static PowerOnShare of(Collection<WearPast> fleet) {
        List<WearPast> telling = fleet.stream().filter(past -> past.powerOn().share() > 0).sorted(Comparator.comparing(WearPast::id)).toList();
        double sum = ASSUMED_DRIVES * ASSUMED.meanLog;
        for (WearPast past : telling) {
            sum += log(past);
        }
        int count = ASSUMED_DRIVES + telling.size();
        double mean = sum / count;
        double squares = ASSUMED_DRIVES * (ASSUMED.deviation * ASSUMED.deviation + square(ASSUMED.meanLog - mean));
        for (WearPast past : telling) {
            squares += square(log(past) - mean);
        }
        return new PowerOnShare(mean, Math.sqrt(squares / count), byModel(telling));
    }

    private static Map<String, Estimate> byModel(List<WearPast> telling) {
        Map<String, double[]> logs = new TreeMap<>();
        telling.stream().filter(past -> past.powerOn().machineModel() != null).collect(Collectors.groupingBy(past -> past.powerOn().machineModel(), TreeMap::new,
            Collectors.toList())).forEach((model, own) -> {
                if (own.size() >= LEAST_DRIVES_OF_MODEL) {
                    logs.put(model, own.stream().mapToDouble(PowerOnShare::log).toArray());
                }
            });
        double squares = 0;
        int degrees = 0;
        Map<String, Double> means = new TreeMap<>();
        for (Map.Entry<String, double[]> own : logs.entrySet()) {
            double mean = Arrays.stream(own.getValue()).sum() / own.getValue().length;
            means.put(own.getKey(), mean);
            for (double log : own.getValue()) {
                squares += square(log - mean);
            }
            degrees += own.getValue().length - 1;
        }
        if (logs.size() < 2 || degrees < ASSUMED_DRIVES || squares == 0) {
            return Map.of();
        }
        double within = squares / degrees;
        Map<String, Estimate> estimates = new TreeMap<>();
        means.forEach((model, mean) -> estimates.put(model, new Estimate(mean, Math.sqrt(within / logs.get(model).length))));
        RandomEffects effects = RandomEffects.of(estimates);
        Map<String, Estimate> drawn = new TreeMap<>();
        estimates.forEach((model, own) -> {
            Estimate shrunk = effects.shrunk(own);
            drawn.put(model, new Estimate(shrunk.mean(), Math.sqrt(within + square(shrunk.deviation()))));
        });
        return drawn;
    }

    private static double log(WearPast past) {
        return Math.log(past.powerOn().share());
    }

    private static double square(double x) {
        return x * x;
    }

    /** The age of a drive in quarters by its quarters under power: those over the typical share, and never fewer. */
    double quarters(double underPower, String machineModel) {
        return Math.max(underPower, underPower / Math.exp(of(machineModel).mean()));
    }

    /** Mean and deviation of the logarithm for one machine. */
    Estimate of(String machineModel) {
        Estimate fleet = new Estimate(meanLog, deviation);
        return machineModel == null ? fleet : byMachineModel.getOrDefault(machineModel, fleet);
    }

    /** Of a drive with a single reading and no in-service date: its age by the hours under power. */
    double inferredQuarters(WearPast past) {
        return quarters(past.powerOn().quarters(), past.powerOn().machineModel());
    }

    /**
     * As {@link WearPast#steps()}; where the age is inferred, the one step that tells as much as its inexact duration does.
     *
     * @param eta shape per quarter of the model that learns from it
     */
    Steps steps(WearPast past, double eta) {
        if (!past.isAgeInferred()) {
            return past.steps();
        }
        double deviation = of(past.powerOn().machineModel()).deviation();
        return InexactDuration.step(eta, inferredQuarters(past), Math.max(past.wear()[0], past.leastIncrement()), deviation * deviation);
    }
}
