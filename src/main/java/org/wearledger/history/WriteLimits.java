package org.wearledger.history;

import java.math.BigInteger;
import java.time.Duration;
import java.time.Instant;
import org.wearledger.model.Health;
import org.wearledger.model.Reading;

/** How much a drive can have written. Generous throughout: what lies beyond is a wrong figure, most often a wrong unit. */
final class WriteLimits {
    private static final long SHARE_OF_HUNDRED = 100;
    /** No drive for client machines sustains more than 20 writes of its whole capacity a day; a wrong unit does. */
    private static final BigInteger MOST_CAPACITY_WRITES_PER_DAY = BigInteger.valueOf(20);
    private static final BigInteger MOST_CAPACITY_WRITES_PER_POWERED_DAY = BigInteger.valueOf(100);
    private static final BigInteger HOURS_PER_DAY = BigInteger.valueOf(24);
    private static final BigInteger SECONDS_PER_DAY = BigInteger.valueOf(86_400);
    /** Shorter intervals count as one day: a bulk copy or a benchmark may fill a drive several times within hours. */
    private static final Duration SHORTEST_ELAPSED = Duration.ofDays(1);
    /** Four lanes of PCI Express 6.0 carry 32 GB a second each way (from memory); no drive has written faster. */
    private static final BigInteger LINK_BYTES_PER_SECOND = BigInteger.valueOf(32_000_000_000L);
    /**
     * Writes of the whole capacity that all 100 % of percentage used stand for: ratings are near 600 and flash bears some thousands;
     * write amplification takes a tenth of that, a generous controller gives ten times. Beyond 5 to 30,000 a figure is wrong.
     */
    private static final BigInteger FEWEST_LIFETIME_WRITES = BigInteger.valueOf(5);
    private static final BigInteger MOST_LIFETIME_WRITES = BigInteger.valueOf(30_000);
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

    static boolean isBelowUsed(BigInteger bytes, Integer percentageUsed, Long capacityBytes) {
        return bytes != null && percentageUsed != null && percentageUsed >= LEAST_USED_PERCENT && percentageUsed < Health.USED_AT_ITS_LIMIT
            && bytes.multiply(BigInteger.valueOf(SHARE_OF_HUNDRED)).compareTo(FEWEST_LIFETIME_WRITES.multiply(BigInteger.valueOf(percentageUsed))
                .multiply(BigInteger.valueOf(capacityBytes == null || capacityBytes <= 0 ? SMALLEST_CAPACITY_BYTES : capacityBytes))) < 0;
    }

    /** Percentage used counts whole percents, so one more is allowed. */
    static boolean isAboveUsed(BigInteger bytes, Integer percentageUsed, Long capacityBytes) {
        return bytes != null && percentageUsed != null && !Health.isUsedOpenAbove(percentageUsed) && capacityBytes != null && capacityBytes > 0
            && bytes.multiply(BigInteger.valueOf(SHARE_OF_HUNDRED)).compareTo(MOST_LIFETIME_WRITES.multiply(BigInteger.valueOf(percentageUsed + 1))
                .multiply(BigInteger.valueOf(capacityBytes))) > 0;
    }

    /** More than any drive lasts, whatever its controller says, or does not. */
    static boolean isBeyondAnyLife(BigInteger bytes, Long capacityBytes) {
        return bytes != null && capacityBytes != null && capacityBytes > 0 && bytes.compareTo(MOST_LIFETIME_WRITES.multiply(BigInteger.valueOf(capacityBytes))) > 0;
    }

    /** Whether the reading's own figures speak against its data units written. */
    static boolean speakAgainst(Reading reading) {
        BigInteger bytes = reading.health().bytesWritten();
        Long capacity = reading.drive().capacityBytes();
        BigInteger most = mostUnderPower(capacity, reading.health().powerOnHours());
        return MeanCommand.isImpossible(reading.health().dataUnitsWritten(), reading.health().hostWriteCommands()) || bytes != null && most != null && bytes.compareTo(most) > 0
            || isBelowUsed(bytes, reading.health().percentageUsed(), capacity) || isAboveUsed(bytes, reading.health().percentageUsed(), capacity);
    }
}
