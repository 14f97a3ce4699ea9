package org.wearledger.simulate;

import java.io.IOException;
import java.math.BigDecimal;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.NavigableMap;
import java.util.TreeMap;
import org.apache.commons.math3.distribution.GammaDistribution;
import org.apache.commons.math3.random.RandomGenerator;
import org.apache.commons.math3.random.Well19937c;
import org.wearledger.model.Attachment;
import org.wearledger.model.Machine;
import org.wearledger.model.Reading;
import org.wearledger.model.Repair;
import org.wearledger.model.Repair.Reason;
import org.wearledger.model.SourcePlace;

/** Writes the second sample: three repair shops, the customers' machines that come in, most of them once, and what was done. */
final class ChainSample {
    /** Its name begins with an underscore, so that a sweep of the office leaves it aside. */
    static final String FOLDER = "_chain";
    private static final int CUSTOMERS = 320;
    private static final int OWN = 6;
    private static final List<String> SHOPS = List.of("Mill Lane", "Old Market", "Quay");
    private static final List<String> MODELS = List.of("Torvane 14", "Torvane 15", "Quillbox M", "Lindmere 13", "Aldwick 15");
    /** It writes three times as much as the others. */
    private static final String WRITES_MUCH = "Aldwick 15";
    private static final LocalDate FIRST = LocalDate.of(2023, 10, 2);
    private static final LocalDate LAST = LocalDate.of(2025, 1, 4);
    /** Those of the price list, and two more. */
    private static final Map<String, String> COSTS = Map.of("drive 256 GB", "87.50", "drive 512 GB", "106.50", "drive 1000 GB", "140.50", "board", "533.50",
        "charging socket", "75.00", "cleaned", "45.00");
    /** Why a machine comes in, each from this probability on. */
    private static final NavigableMap<Double, Reason> WHEN_WORN = new TreeMap<>(Map.of(0.0, Reason.DEAD_DRIVE, 0.4, Reason.WORN, 0.8, Reason.OTHER_FAULT));
    private static final NavigableMap<Double, Reason> WHEN_NOT_WORN = new TreeMap<>(Map.of(0.0, Reason.DEAD_DRIVE, 0.2, Reason.SUPPLY_CIRCUIT, 0.4, Reason.OTHER_FAULT,
        0.95, Reason.WITHDRAWN, 0.97, Reason.SOLD));
    private static final SourcePlace SOURCE = SourcePlace.wholeFile("simulated");
    private static final long BYTES_PER_GIBIBYTE = 1L << 30;

    /** One machine with the drive that it came with. */
    private record Laptop(Machine machine, DriveModel model, SimulatedDrive drive, double gigabytesPerDay) {
        double terabytesOn(LocalDate day) {
            return gigabytesPerDay * ChronoUnit.DAYS.between(machine.inServiceOn(), day) / 1_000;
        }
    }

    private final RandomGenerator random;
    private final Map<String, List<Reading>> readings = new TreeMap<>();
    private final List<Repair> repairs = new ArrayList<>();

    private ChainSample(long seed) {
        random = new Well19937c(seed);
    }

    static void write(Path folder, long seed) throws IOException {
        ChainSample chain = new ChainSample(seed);
        List<List<Object>> inventory = new ArrayList<>();
        for (int number = 1; number <= CUSTOMERS; number++) {
            chain.customer(number);
        }
        for (int number = 1; number <= OWN; number++) {
            inventory.add(chain.own(number));
        }
        SampleFolder files = new SampleFolder(folder.resolve(FOLDER));
        for (Map.Entry<String, List<Reading>> shop : chain.readings.entrySet()) {
            files.gzip(shop.getKey().toLowerCase(Locale.ROOT).replace(' ', '-') + ".csv.gz", ReportText.csv(shop.getValue()));
        }
        files.text("repairs.csv", SampleTables.csv("ticket,machineId,site,repairDate,reason,action,cost", chain.repairRows()));
        files.text("inventory.csv", SampleTables.csv("machineId,site,inServiceOn,ownership", inventory));
        files.text("ratings.csv", SampleTables.ratingsInField(DriveModel.RATED));
        files.text("prices.csv", SampleTables.prices());
        files.text("README.md", SampleFolder.filled("chain.md", CUSTOMERS, OWN));
    }

    private Laptop laptop(String id, int number, LocalDate inServiceOn) {
        String model = MODELS.get(number % MODELS.size());
        long gibibytes = number % 3 == 0 ? 16 : 8;
        DriveModel drive = DriveModel.ALL.get(random.nextInt(DriveModel.ALL.size()));
        double rate = new GammaDistribution(random, 4, (gibibytes == 8 ? 50 : 25) * (model.equals(WRITES_MUCH) ? 3 : 1) / 4.0).sample();
        Attachment attachment = number % 4 == 0 ? Attachment.SOLDERED : Attachment.SOCKETED;
        String serial = drive.name().substring(0, 2).toUpperCase(Locale.ROOT) + (9_100_000 + 977L * number) + id.charAt(0);
        return new Laptop(new Machine(id, null, SHOPS.get(number / 2 % SHOPS.size()), null, model, gibibytes * BYTES_PER_GIBIBYTE, null, inServiceOn), drive,
            new SimulatedDrive(random, drive, serial, attachment, rate), rate);
    }

    private void customer(int number) {
        LocalDate visit = FIRST.plusDays(random.nextInt((int) ChronoUnit.DAYS.between(FIRST, LAST)));
        Laptop laptop = laptop(String.format(Locale.ROOT, "CU-%04d", number), number, visit.minusDays(200 + random.nextInt(1_600)));
        laptop.drive.advance(ChronoUnit.DAYS.between(laptop.machine.inServiceOn(), visit));
        boolean livesOn = comesIn(laptop, number, visit);
        LocalDate again = visit.plusDays(60 + random.nextInt(300));
        if (livesOn && random.nextDouble() < 0.4 && !again.isAfter(LAST)) {
            laptop.drive.advance(ChronoUnit.DAYS.between(visit, again));
            comesIn(laptop, number, again);
        }
    }

    /** @return whether the drive is still in use */
    private boolean comesIn(Laptop laptop, int number, LocalDate day) {
        boolean worn = laptop.terabytesOn(day) > laptop.model.ratedTerabytesWritten();
        double chance = random.nextDouble();
        Reason reason = (worn ? WHEN_WORN : WHEN_NOT_WORN).floorEntry(chance).getValue();
        if (reason != Reason.DEAD_DRIVE || random.nextDouble() < 0.5) {
            read(laptop, day);
        }
        boolean soldered = laptop.drive.drive().attachment() == Attachment.SOLDERED;
        String action = switch (reason) {
            case WORN, DEAD_DRIVE -> soldered ? "board" : "drive " + laptop.model.nominalCapacityGigabytes() + " GB";
            case SUPPLY_CIRCUIT -> random.nextDouble() < 0.5 ? "board" : "charging socket";
            case OTHER_FAULT -> "cleaned";
            case WITHDRAWN, SOLD -> null;
        };
        repairs.add(new Repair("", laptop.machine.id(), null, laptop.machine.site(), day, reason, action, action == null ? null : new BigDecimal(COSTS.get(action))));
        return !reason.endsDrive() && !"board".equals(action);
    }

    /** Tickets are numbered by day. */
    private List<List<Object>> repairRows() {
        List<List<Object>> rows = new ArrayList<>();
        repairs.stream().sorted(Comparator.comparing(Repair::date).thenComparing(Repair::machineId)).forEach(repair -> rows.add(Arrays.asList("R-" + (20_000 + rows.size()),
            repair.machineId(), repair.site(), repair.date(), repair.reason().label(), repair.action(), repair.cost())));
        return rows;
    }

    private void read(Laptop laptop, LocalDate day) {
        readings.computeIfAbsent(laptop.machine.site(), shop -> new ArrayList<>()).add(new Reading(SOURCE,
            day.atTime(9, 0).plusSeconds(random.nextInt(8 * 3600)).toInstant(ZoneOffset.UTC), laptop.machine, laptop.drive.drive(), laptop.drive.health()));
    }

    /** A machine of the chain reports each quarter. */
    private List<Object> own(int number) {
        Laptop laptop = laptop(String.format(Locale.ROOT, "SHOP-%d", number), number, LocalDate.of(2021, 3, 1));
        LocalDate before = laptop.machine.inServiceOn();
        for (LocalDate day = FIRST; !day.isAfter(LAST); day = day.plusDays(91)) {
            laptop.drive.advance(ChronoUnit.DAYS.between(before, day));
            read(laptop, day);
            before = day;
        }
        return List.of(laptop.machine.id(), laptop.machine.site(), laptop.machine.inServiceOn(), "own");
    }
}
