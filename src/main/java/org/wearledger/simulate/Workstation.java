package org.wearledger.simulate;

import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.Locale;
import java.util.function.Supplier;
import org.apache.commons.math3.random.RandomGenerator;
import org.wearledger.model.Attachment;
import org.wearledger.model.Drive;
import org.wearledger.model.Health;
import org.wearledger.model.Machine;
import org.wearledger.model.Reading;
import org.wearledger.model.SourcePlace;

/** One machine of the invented office and the drive that sits in it now. */
final class Workstation {
    private static final SourcePlace SOURCE = SourcePlace.wholeFile("simulated");
    private static final long BYTES_PER_GIBIBYTE = 1L << 30;
    private static final String[] SITES = {"Harbour", "North", "South"};
    private static final String[] MODELS = {"Torvane 14", "Torvane 15", "Quillbox M"};

    final int number;
    final int memoryGibibytes;
    final LocalDate inServiceOn;
    SimulatedDrive drive;

    Workstation(int number, int memoryGibibytes, LocalDate inServiceOn) {
        this.number = number;
        this.memoryGibibytes = memoryGibibytes;
        this.inServiceOn = inServiceOn;
    }

    String id() {
        return id(number);
    }

    /** Example: {@code LT-007}. */
    static String id(int number) {
        return String.format(Locale.ROOT, "LT-%03d", number);
    }

    String site() {
        return SITES[number % SITES.length];
    }

    String costCentre() {
        return "CC-" + (100 + number % 4 * 10);
    }

    long memoryBytes() {
        return memoryGibibytes * BYTES_PER_GIBIBYTE;
    }

    Attachment attachment() {
        return number % 3 == 0 ? Attachment.SOLDERED : Attachment.SOCKETED;
    }

    /** Small memory swaps; the report is made between eight and two. */
    Reading reading(RandomGenerator random, LocalDate date, Drive drive, Supplier<Health> health) {
        double swapShare = (memoryGibibytes == 8 ? 0.5 : 0.04) * random.nextDouble();
        long swapUsedBytes = (long) (swapShare * memoryBytes()) / 4096 * 4096;
        int secondsAfterEight = random.nextInt(6 * 3600);
        return new Reading(SOURCE, date.atTime(8, 0).plusSeconds(secondsAfterEight).toInstant(ZoneOffset.UTC), machine(swapUsedBytes), drive, health.get());
    }

    private Machine machine(long swapUsedBytes) {
        return new Machine(id(), "A-" + (40_000 + number), site(), costCentre(), MODELS[number % MODELS.length],
            memoryBytes(), swapUsedBytes, inServiceOn);
    }
}
