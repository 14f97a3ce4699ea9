package org.wearledger.simulate;

import java.io.IOException;
import java.nio.file.Path;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.temporal.IsoFields;
import java.time.temporal.TemporalAdjusters;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.apache.commons.math3.random.Well19937c;
import org.wearledger.model.Reading;

/** Writes the sample: one folder a sweep, the side tables, a README that lists everything odd, and the {@linkplain ChainSample second sample}. */
public final class OfficeSample {
    /** Of the committed sample. */
    public static final long DEFAULT_SEED = 20250106;
    /** Of the committed sample. */
    public static final int DEFAULT_MACHINES = 60;
    /** Of the committed sample. */
    public static final int DEFAULT_QUARTERS = 6;
    /** The oddities need the machines they happen to, and a history to happen in. */
    public static final int LEAST_MACHINES = Office.leastMachines();
    /** The oddities need sweeps before the one they happen in. */
    public static final int LEAST_QUARTERS = 3;
    private static final LocalDate LAST_QUARTER = LocalDate.of(2025, 1, 1);

    private OfficeSample() {
    }

    /**
     * Writes into {@code folder}, which is made when missing; files of the same name are replaced. The last sweep is
     * always that of January 2025.
     *
     * @throws IllegalArgumentException for fewer machines than {@link #LEAST_MACHINES} or quarters than
     *     {@link #LEAST_QUARTERS}
     */
    public static void write(Path folder, long seed, int machines, int quarters) throws IOException {
        if (machines < LEAST_MACHINES || quarters < LEAST_QUARTERS) {
            throw new IllegalArgumentException("the sample needs at least " + LEAST_MACHINES + " machines and "
                + LEAST_QUARTERS + " quarters, not " + machines + " and " + quarters);
        }
        List<LocalDate> dates = sweepDates(quarters);
        Office office = new Office(new Well19937c(seed), machines, dates);
        SampleFolder files = new SampleFolder(folder);
        Filing filing = new Filing(files);
        for (int sweep = 0; sweep < quarters; sweep++) {
            Map<Integer, Reading> readings = office.sweep(sweep);
            filing.file(folderName(dates.get(sweep)), quarters - 1 - sweep, readings);
        }
        files.text("ratings.csv", SampleTables.ratings(DriveModel.RATED));
        files.text("inventory.csv", SampleTables.inventory(office.workstations().stream()
            .filter(w -> w.number != Filing.NOT_IN_INVENTORY).toList()));
        files.text("prices.csv", SampleTables.prices());
        ChainSample.write(folder, seed);
        files.text("README.md", SampleReadme.text(seed, machines, quarters, oddities(quarters)));
    }

    /** Everything odd in the sample, by file. */
    static List<Oddity> oddities(int quarters) {
        List<LocalDate> dates = sweepDates(quarters);
        return Oddities.list(folderName(dates.get(quarters - 2)), folderName(dates.get(quarters - 1)));
    }

    /** The first Monday after the first day of each quarter, oldest first. */
    static List<LocalDate> sweepDates(int quarters) {
        List<LocalDate> dates = new ArrayList<>();
        for (int back = quarters - 1; back >= 0; back--) {
            dates.add(LAST_QUARTER.minusMonths(3L * back).with(TemporalAdjusters.next(DayOfWeek.MONDAY)));
        }
        return dates;
    }

    /** Example: {@code 2024-q3}. */
    static String folderName(LocalDate date) {
        return date.getYear() + "-q" + date.get(IsoFields.QUARTER_OF_YEAR);
    }
}
