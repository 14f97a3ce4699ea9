package org.wearledger.assess;

import java.math.BigInteger;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import org.wearledger.model.HistoryPoint;
import org.wearledger.model.Projection;

/** When the rated endurance is reached on a straight line: latest reading + remaining / rate. */
final class Projections {
    private static final double SECONDS_PER_DAY = 86_400;
    private static final double MOST_DAYS_AHEAD = 3_652.5;
    private static final double EVIDENCE_FACTOR = 3;

    private Projections() {
    }

    /**
     * @param written points with a total, in time order, at least one
     * @param ratedBytes rated endurance
     * @param noRate why {@code rates} has no rate, used only then
     */
    static Projection project(List<HistoryPoint> written, BigInteger ratedBytes, WriteRates rates, String noRate) {
        HistoryPoint latest = written.get(written.size() - 1);
        BigInteger remainingBytes = ratedBytes.subtract(latest.totalBytesWritten());
        if (remainingBytes.signum() <= 0) {
            return crossing(written, ratedBytes);
        }
        Double rate = rates.best();
        if (rate == null) {
            return new Projection.None(noRate);
        }
        if (rate <= 0) {
            return new Projection.None("no writes measured, so no date");
        }
        double daysAhead = remainingBytes.doubleValue() / 1e9 / rate;
        if (daysAhead > MOST_DAYS_AHEAD) {
            return new Projection.None("more than 10 years at this rate");
        }
        Instant latestAt = latest.reading().collectedAt();
        Instant evidenceFrom = rates.lately() != null ? written.get(0).reading().collectedAt()
            : rates.lifeStartsOn().atStartOfDay(ZoneOffset.UTC).toInstant();
        double daysObserved = rates.ageInferred() ? 0 : Duration.between(evidenceFrom, latestAt).toSeconds() / SECONDS_PER_DAY;
        LocalDate date = day(latestAt.plusSeconds(Math.round(daysAhead * SECONDS_PER_DAY)));
        return new Projection.Reaches(date, rates.basis(), daysAhead > EVIDENCE_FACTOR * daysObserved);
    }

    private static Projection crossing(List<HistoryPoint> written, BigInteger ratedBytes) {
        LocalDate lastBelowOn = null;
        for (HistoryPoint point : written) {
            LocalDate on = day(point.reading().collectedAt());
            if (point.totalBytesWritten().compareTo(ratedBytes) >= 0) {
                return new Projection.AlreadyPast(lastBelowOn, on);
            }
            lastBelowOn = on;
        }
        throw new IllegalArgumentException("the latest total is below the rating: " + ratedBytes);
    }

    private static LocalDate day(Instant at) {
        return LocalDate.ofInstant(at, ZoneOffset.UTC);
    }
}
