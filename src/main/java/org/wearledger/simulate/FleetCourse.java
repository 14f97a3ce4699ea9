package org.wearledger.simulate;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.time.temporal.IsoFields;
import java.util.List;
import org.wearledger.simulate.SeededStream.Purpose;

/** What all drives of a fleet share: the settings, the sweeps, the shock path and the models' factors. */
final class FleetCourse {
    static final double DAYS_PER_QUARTER = 365.25 / 4;

    final FleetSettings settings;
    final List<LocalDate> sweepDates;
    private final double[] shockLogRates;
    private final double[] modelFactors;

    FleetCourse(FleetSettings settings) {
        this.settings = settings;
        sweepDates = OfficeSample.sweepDates(settings.quarters());
        shockLogRates = new double[sweepDates.size()];
        for (int sweep = 1; sweep < shockLogRates.length; sweep++) {
            shockLogRates[sweep] = shockLogRates[sweep - 1]
                + settings.value(FleetSetting.SHOCK) * stream(Purpose.SHOCK, sweep).nextGaussian();
        }
        modelFactors = new double[DriveModel.ALL.size()];
        for (int model = 0; model < modelFactors.length; model++) {
            modelFactors[model] = StrictMath.exp(
                settings.value(FleetSetting.MODEL_SPREAD) * stream(Purpose.MODEL_FACTOR, model).nextGaussian());
        }
    }

    SeededStream stream(Purpose purpose, long... place) {
        return SeededStream.of(settings.seed(), purpose, place);
    }

    /** Of the quarter that ends with this sweep; 0 for the first sweep. */
    double shockLogRate(int sweep) {
        return shockLogRates[sweep];
    }

    double modelFactor(DriveModel model) {
        return modelFactors[DriveModel.ALL.indexOf(model)];
    }

    /** Of the quarter that ends with this sweep: +1, 0, -1, 0 times the amplitude from the first calendar quarter on. */
    double seasonLogRate(int sweep) {
        double share = switch (sweepDates.get(sweep - 1).get(IsoFields.QUARTER_OF_YEAR)) {
            case 1 -> 1;
            case 3 -> -1;
            default -> 0;
        };
        return settings.value(FleetSetting.SEASON) * share;
    }

    long daysUpTo(int sweep) {
        return ChronoUnit.DAYS.between(sweepDates.get(sweep - 1), sweepDates.get(sweep));
    }

    String quarterName(int sweep) {
        return OfficeSample.folderName(sweepDates.get(sweep));
    }
}
