package org.wearledger.job;

import java.math.BigInteger;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.stream.IntStream;
import org.wearledger.intake.PackedReading;
import org.wearledger.intake.ValueReader;
import org.wearledger.intake.ValueWriter;
import org.wearledger.model.Crossing;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.Endurance;
import org.wearledger.model.Forecast;
import org.wearledger.model.Interval;
import org.wearledger.model.Projection;
import org.wearledger.model.Reading;
import org.wearledger.model.Standing;
import org.wearledger.model.WarningSign;

/**
 * The assessments of one share of the drives as bytes, to come back from Spark's tasks: their values one after another. As serialised
 * Java objects hundreds of thousands of them cost more than to work them out.
 */
final class PackedAssessments {
    private static final Standing[] STANDINGS = Standing.values();
    private static final WarningSign.Kind[] SIGNS = WarningSign.Kind.values();

    private PackedAssessments() {
    }

    static byte[] pack(Iterator<DriveAssessment> assessments) {
        ValueWriter out = new ValueWriter();
        assessments.forEachRemaining(assessment -> write(assessment, out));
        return out.bytes();
    }

    /** What {@link #pack} was given. */
    static List<DriveAssessment> unpack(byte[] packed) {
        List<DriveAssessment> assessments = new ArrayList<>();
        ValueReader in = new ValueReader(packed);
        while (in.hasMore()) {
            assessments.add(assessment(in));
        }
        return assessments;
    }

    private static void write(DriveAssessment a, ValueWriter out) {
        PackedReading.write(a.latest(), out);
        out.date(a.seen().inServiceOn());
        out.moment(a.seen().firstCollectedAt());
        out.whole(a.seen().readings());
        out.whole(a.seen().epochs());
        DriveAssessment.Wear wear = a.wear();
        out.exact(wear.bytesWritten());
        Endurance endurance = wear.endurance();
        out.yes(endurance != null);
        if (endurance != null) {
            out.decimal(endurance.ratedTerabytesWritten());
            out.yes(endurance.assumed());
            out.decimal(endurance.warrantyYears());
            out.text(endurance.source());
        }
        Interval implied = wear.impliedEnduranceTerabytes();
        for (Double number : new Double[] {wear.consumedPercent(), wear.remainingTerabytes(), implied == null ? null : (Double) implied.low(),
            implied == null ? null : (Double) implied.high(), a.pace().gigabytesPerDayLately(), a.pace().gigabytesPerDayOverLife(), a.pace().driveWritesPerDay()}) {
            out.numberOrNull(number);
        }
        write(a.outlook().projection(), out);
        write(a.outlook().ratingForecast(), out);
        write(a.outlook().controllerForecast(), out);
        out.whole(a.standing().ordinal());
        out.text(a.reason());
        out.whole(a.signs().size());
        for (WarningSign sign : a.signs()) {
            out.whole(sign.kind().ordinal());
            out.whole(sign.from());
            out.whole(sign.to());
            out.date(sign.on());
        }
    }

    private static DriveAssessment assessment(ValueReader in) {
        Reading latest = PackedReading.read(in);
        return new DriveAssessment(latest.drive().id(), latest, new DriveAssessment.Seen(in.date(), in.moment(), (int) in.whole(), (int) in.whole()), wear(in),
            new DriveAssessment.Pace(in.numberOrNull(), in.numberOrNull(), in.numberOrNull()), new DriveAssessment.Outlook(projection(in), forecast(in), forecast(in)),
            STANDINGS[(int) in.whole()], in.text(), signs(in));
    }

    private static List<WarningSign> signs(ValueReader in) {
        int count = (int) in.whole();
        return IntStream.range(0, count).mapToObj(i -> new WarningSign(SIGNS[(int) in.whole()], in.whole(), in.whole(), in.date())).toList();
    }

    private static DriveAssessment.Wear wear(ValueReader in) {
        BigInteger written = in.exact();
        Endurance endurance = in.yes() ? new Endurance(in.decimal(), in.yes(), in.decimal(), in.text()) : null;
        Double consumed = in.numberOrNull();
        Double remaining = in.numberOrNull();
        Double low = in.numberOrNull();
        Double high = in.numberOrNull();
        return new DriveAssessment.Wear(written, endurance, consumed, remaining, low == null ? null : new Interval(low, high));
    }

    private static void write(Projection projection, ValueWriter out) {
        if (projection instanceof Projection.Reaches reaches) {
            out.whole('R');
            out.date(reaches.date());
            out.text(reaches.basis());
            out.yes(reaches.beyondEvidence());
        } else if (projection instanceof Projection.AlreadyPast past) {
            out.whole('P');
            out.date(past.lastBelowOn());
            out.date(past.seenOn());
        } else {
            out.whole('N');
            out.text(projection == null ? null : projection.basis());
        }
    }

    private static Projection projection(ValueReader in) {
        long form = in.whole();
        if (form == 'R') {
            return new Projection.Reaches(in.date(), in.text(), in.yes());
        }
        if (form == 'P') {
            return new Projection.AlreadyPast(in.date(), in.date());
        }
        String basis = in.text();
        return basis == null ? null : new Projection.None(basis);
    }

    private static void write(Forecast forecast, ValueWriter out) {
        out.yes(forecast != null);
        if (forecast == null) {
            return;
        }
        for (LocalDate date : new LocalDate[] {forecast.p10On(), forecast.p50On(), forecast.p90On(), forecast.evidenceUntil()}) {
            out.date(date);
        }
        Crossing crossing = forecast.crossing();
        for (double number : new double[] {forecast.withinLeadTime(), forecast.within1Quarter(), forecast.within2Quarters(), forecast.within4Quarters(),
            forecast.within8Quarters(), crossing.beliefShape(), crossing.beliefRate()}) {
            out.number(number);
        }
        out.text(forecast.basis());
        out.whole(crossing.remaining().size());
        crossing.remaining().forEach(out::number);
        out.moment(crossing.readAt());
    }

    private static Forecast forecast(ValueReader in) {
        if (!in.yes()) {
            return null;
        }
        LocalDate p10On = in.date();
        LocalDate p50On = in.date();
        LocalDate p90On = in.date();
        LocalDate evidenceUntil = in.date();
        double[] within = {in.number(), in.number(), in.number(), in.number(), in.number()};
        double shape = in.number();
        double rate = in.number();
        String basis = in.text();
        List<Double> remaining = new ArrayList<>();
        for (long left = in.whole(); left > 0; left--) {
            remaining.add(in.number());
        }
        return new Forecast(p10On, p50On, p90On, within[0], within[1], within[2], within[3], within[4], evidenceUntil, basis,
            new Crossing(shape, rate, remaining, in.moment()));
    }
}
