package org.wearledger.history;

import java.math.BigInteger;
import java.time.Duration;
import java.time.Instant;
import org.wearledger.model.Health;
import org.wearledger.model.Reading;

/** How much a drive can have written. Generous throughout: what lies beyond is a wrong figure, most often a wrong unit. */
final class WriteLimits {
    private static final long HUNDRED_UNITS_BYTES = 51_200_000;
    /** Our own limit, no source: no drive for client machines should sustain more writes of its whole capacity a day; a wrong unit does. */
    private static final BigInteger MOST_CAPACITY_WRITES_PER_DAY = BigInteger.valueOf(20);
    private static final BigInteger MOST_CAPACITY_WRITES_PER_POWERED_DAY = BigInteger.valueOf(100);
    private static final BigInteger HOURS_PER_DAY = BigInteger.valueOf(24);
    private static final BigInteger SECONDS_PER_DAY = BigInteger.valueOf(86_400);
    /** Shorter intervals count as one day: a bulk copy or a benchmark may fill a drive several times within hours. */
    private static final Duration SHORTEST_ELAPSED = Duration.ofDays(1);
    /** Four lanes of PCI Express 6.0 carry 32 GB a second each way (from memory); no drive has written faster. */
    private static final BigInteger LINK_BYTES_PER_SECOND = BigInteger.valueOf(32_000_000_000L);
    /**
     * Writes of the whole capacity that all 100 % of percentage used stand for: ratings are near 600 and flash bears some thousands (from memory);
     * write amplification takes a tenth of that, a generous controller gives ten times. Beyond 5 to 30,000 a figure is wrong.
     */
    private static final long FEWEST_LIFETIME_WRITES = 5;
    private static final long MOST_LIFETIME_WRITES = 30_000;
    /** Below this the estimate is too coarse to divide by. */
    private static final int LEAST_USED_PERCENT = 5;
    /** Where a report gives no capacity: hardly any drive of this interface is smaller. */
    private static final long SMALLEST_CAPACITY_BYTES = 120_000_000_000L;

    private WriteLimits() {
    }

    /** @param capacityBytes above 0 */
    static BigInteger mostWithin(long capacityBytes, Duration elapsed) {
        Duration counted = elapsed.compareTo(SHORTEST_ELAPSED) < 0 ? SHORTEST_ELAPSED : elapsed;
        return MOST_CAPACITY_WRITES_PER_DAY.multiply(BigInteger.valueOf(capacityBytes)).multiply(BigInteger.valueOf(counted.toSeconds())).divide(SECONDS_PER_DAY);
    }

    /** Generous, since laptops do not count every hour. {@code null} when a part of it is not known. */
    static BigInteger mostUnderPower(Long capacityBytes, Long powerOnHours) {
        return powerOnHours == null || capacityBytes == null || capacityBytes <= 0 ? null
            : MOST_CAPACITY_WRITES_PER_POWERED_DAY.multiply(BigInteger.valueOf(capacityBytes)).multiply(BigInteger.valueOf(powerOnHours).max(HOURS_PER_DAY)).divide(HOURS_PER_DAY);
    }

    /** What the fastest link carries in the time, and in one minute more. */
    static BigInteger mostOverLink(Duration elapsed) {
        return LINK_BYTES_PER_SECOND.multiply(BigInteger.valueOf(elapsed.plusMinutes(1).toSeconds()));
    }

    /** What the fastest link has carried since the first NVM Express specification. */
    static BigInteger mostSinceFirstSpecification(Instant at) {
        return LINK_BYTES_PER_SECOND.multiply(BigInteger.valueOf(Math.max(0, Duration.between(Health.FIRST_SPECIFICATION, at).toSeconds())));
    }

    static boolean isBelowUsed(Long dataUnits, Integer percentageUsed, Long capacityBytes) {
        return dataUnits != null && percentageUsed != null && percentageUsed >= LEAST_USED_PERCENT && percentageUsed < Health.USED_AT_ITS_LIMIT
            && isMore(FEWEST_LIFETIME_WRITES * percentageUsed, capacityBytes == null || capacityBytes <= 0 ? SMALLEST_CAPACITY_BYTES : capacityBytes, dataUnits, HUNDRED_UNITS_BYTES);
    }

    /** Percentage used counts whole percents, so one more is allowed. */
    static boolean isAboveUsed(Long dataUnits, Integer percentageUsed, Long capacityBytes) {
        return dataUnits != null && percentageUsed != null && !Health.isUsedOpenAbove(percentageUsed) && capacityBytes != null && capacityBytes > 0
            && isMore(dataUnits, HUNDRED_UNITS_BYTES, MOST_LIFETIME_WRITES * (percentageUsed + 1), capacityBytes);
    }

    /** More than any drive lasts, whatever its controller says, or does not. */
    static boolean isBeyondAnyLife(Long dataUnits, Long capacityBytes) {
        return dataUnits != null && capacityBytes != null && capacityBytes > 0 && isMore(dataUnits, HUNDRED_UNITS_BYTES / 100, MOST_LIFETIME_WRITES, capacityBytes);
    }

    /** Whether a x b is more than c x d, all 0 or more, to the last of 128 bits. */
    static boolean isMore(long a, long b, long c, long d) {
        int high = Long.compare(Math.multiplyHigh(a, b), Math.multiplyHigh(c, d));
        return high > 0 || high == 0 && Long.compareUnsigned(a * b, c * d) > 0;
    }

    /** Far below what is possible by time and by hours, as nearly every total is: less than half, to the digits of a double. */
    static boolean isCommon(long dataUnits, Long capacityBytes, Long powerOnHours, Instant at) {
        double twice = 2.0 * HUNDRED_UNITS_BYTES / 100 * dataUnits;
        return twice < LINK_BYTES_PER_SECOND.doubleValue() * (at.getEpochSecond() - Health.FIRST_SPECIFICATION.getEpochSecond())
            && (powerOnHours == null || capacityBytes == null || capacityBytes <= 0 || twice * 24 < 100.0 * capacityBytes * Math.max(24, powerOnHours));
    }

    /** As {@link #isCommon}, for a rise between two moments. */
    static boolean isCommonIncrease(long dataUnits, long capacityBytes, Instant from, Instant to) {
        double days = Math.max(1, (to.getEpochSecond() - from.getEpochSecond()) / SECONDS_PER_DAY.doubleValue());
        return 2.0 * HUNDRED_UNITS_BYTES / 100 * dataUnits < MOST_CAPACITY_WRITES_PER_DAY.doubleValue() * capacityBytes * days;
    }

    /** Whether the reading's own figures speak against its data units written. */
    static boolean speakAgainst(Reading reading) {
        Health h = reading.health();
        Long units = h.dataUnitsWritten();
        Long capacity = reading.drive().capacityBytes();
        BigInteger most = units == null || isCommon(units, capacity, h.powerOnHours(), reading.collectedAt()) ? null : mostUnderPower(capacity, h.powerOnHours());
        return MeanCommand.isImpossible(units, h.hostWriteCommands()) || most != null && h.bytesWritten().compareTo(most) > 0
            || isBelowUsed(units, h.percentageUsed(), capacity) || isAboveUsed(units, h.percentageUsed(), capacity);
    }
}
