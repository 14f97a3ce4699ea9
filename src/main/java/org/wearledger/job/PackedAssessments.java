package org.wearledger.job;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.math.BigInteger;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import org.wearledger.intake.PackedReading;
import org.wearledger.model.Crossing;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.Endurance;
import org.wearledger.model.Forecast;
import org.wearledger.model.Interval;
import org.wearledger.model.Projection;
import org.wearledger.model.Reading;
import org.wearledger.model.Standing;

/**
 * The assessments of one share of the drives as bytes, to come back from Spark's tasks: their values one after another. As serialised
 * Java objects hundreds of thousands of them cost more than to work them out.
 */
final class PackedAssessments {
    private static final Standing[] STANDINGS = Standing.values();

    private PackedAssessments() {
    }

    static byte[] pack(Iterator<DriveAssessment> assessments) {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        Writer out = new Writer(new DataOutputStream(bytes));
        try {
            while (assessments.hasNext()) {
                out.write(assessments.next());
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return bytes.toByteArray();
    }

    /** What {@link #pack} was given. */
    static List<DriveAssessment> unpack(byte[] packed) {
        List<DriveAssessment> assessments = new ArrayList<>();
        Reader in = new Reader(new DataInputStream(new ByteArrayInputStream(packed)));
        try {
            while (in.from.available() > 0) {
                assessments.add(in.assessment());
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return assessments;
    }

    private record Writer(DataOutputStream to) {
        void write(DriveAssessment a) throws IOException {
            bytes(PackedReading.pack(a.latest()));
            date(a.seen().inServiceOn());
            moment(a.seen().firstCollectedAt());
            to.writeInt(a.seen().readings());
            to.writeInt(a.seen().epochs());
            DriveAssessment.Wear wear = a.wear();
            bytes(wear.bytesWritten() == null ? null : wear.bytesWritten().toByteArray());
            if (isThere(wear.endurance())) {
                decimal(wear.endurance().ratedTerabytesWritten());
                to.writeBoolean(wear.endurance().assumed());
                decimal(wear.endurance().warrantyYears());
                text(wear.endurance().source());
            }
            number(wear.consumedPercent());
            number(wear.remainingTerabytes());
            number(wear.impliedEnduranceTerabytes() == null ? null : wear.impliedEnduranceTerabytes().low());
            number(wear.impliedEnduranceTerabytes() == null ? null : wear.impliedEnduranceTerabytes().high());
            number(a.pace().gigabytesPerDayLately());
            number(a.pace().gigabytesPerDayOverLife());
            number(a.pace().driveWritesPerDay());
            projection(a.outlook().projection());
            forecast(a.outlook().ratingForecast());
            forecast(a.outlook().controllerForecast());
            to.writeByte(a.standing().ordinal());
            text(a.reason());
        }

        private void projection(Projection projection) throws IOException {
            if (projection instanceof Projection.Reaches reaches) {
                to.writeByte('R');
                date(reaches.date());
                text(reaches.basis());
                to.writeBoolean(reaches.beyondEvidence());
            } else if (projection instanceof Projection.AlreadyPast past) {
                to.writeByte('P');
                date(past.lastBelowOn());
                date(past.seenOn());
            } else {
                to.writeByte('N');
                text(projection == null ? null : projection.basis());
            }
        }

        private void forecast(Forecast forecast) throws IOException {
            if (!isThere(forecast)) {
                return;
            }
            for (LocalDate date : new LocalDate[] {forecast.p10On(), forecast.p50On(), forecast.p90On(), forecast.evidenceUntil()}) {
                date(date);
            }
            for (double within : new double[] {forecast.withinLeadTime(), forecast.within1Quarter(), forecast.within2Quarters(), forecast.within4Quarters(),
                forecast.within8Quarters(), forecast.crossing().beliefShape(), forecast.crossing().beliefRate()}) {
                to.writeDouble(within);
            }
            text(forecast.basis());
            to.writeByte(forecast.crossing().remaining().size());
            for (double remaining : forecast.crossing().remaining()) {
                to.writeDouble(remaining);
            }
            moment(forecast.crossing().readAt());
        }

        private boolean isThere(Object value) throws IOException {
            to.writeBoolean(value != null);
            return value != null;
        }

        private void number(Double value) throws IOException {
            if (isThere(value)) {
                to.writeDouble(value);
            }
        }

        private void date(LocalDate value) throws IOException {
            to.writeLong(value == null ? Long.MIN_VALUE : value.toEpochDay());
        }

        private void moment(Instant value) throws IOException {
            to.writeLong(value.getEpochSecond());
            to.writeInt(value.getNano());
        }

        private void decimal(BigDecimal value) throws IOException {
            text(value == null ? null : value.toString());
        }

        private void text(String value) throws IOException {
            bytes(value == null ? null : value.getBytes(StandardCharsets.UTF_8));
        }

        private void bytes(byte[] value) throws IOException {
            to.writeInt(value == null ? -1 : value.length);
            if (value != null) {
                to.write(value);
            }
        }
    }

    private record Reader(DataInputStream from) {
        DriveAssessment assessment() throws IOException {
            Reading latest = PackedReading.unpack(bytes());
            return new DriveAssessment(latest.drive().id(), latest, new DriveAssessment.Seen(date(), moment(), from.readInt(), from.readInt()),
                wear(), new DriveAssessment.Pace(number(), number(), number()), new DriveAssessment.Outlook(projection(), forecast(), forecast()),
                STANDINGS[from.readByte()], text());
        }

        private DriveAssessment.Wear wear() throws IOException {
            byte[] written = bytes();
            Endurance endurance = from.readBoolean() ? new Endurance(decimal(), from.readBoolean(), decimal(), text()) : null;
            Double consumed = number();
            Double remaining = number();
            Double low = number();
            Double high = number();
            return new DriveAssessment.Wear(written == null ? null : new BigInteger(written), endurance, consumed, remaining, low == null ? null : new Interval(low, high));
        }

        private Projection projection() throws IOException {
            int form = from.readByte();
            if (form == 'R') {
                return new Projection.Reaches(date(), text(), from.readBoolean());
            }
            if (form == 'P') {
                return new Projection.AlreadyPast(date(), date());
            }
            String basis = text();
            return basis == null ? null : new Projection.None(basis);
        }

        private Forecast forecast() throws IOException {
            if (!from.readBoolean()) {
                return null;
            }
            LocalDate p10On = date();
            LocalDate p50On = date();
            LocalDate p90On = date();
            LocalDate evidenceUntil = date();
            double[] within = {from.readDouble(), from.readDouble(), from.readDouble(), from.readDouble(), from.readDouble()};
            double shape = from.readDouble();
            double rate = from.readDouble();
            String basis = text();
            List<Double> remaining = new ArrayList<>();
            for (int left = from.readByte(); left > 0; left--) {
                remaining.add(from.readDouble());
            }
            return new Forecast(p10On, p50On, p90On, within[0], within[1], within[2], within[3], within[4], evidenceUntil, basis,
                new Crossing(shape, rate, remaining, moment()));
        }

        private Double number() throws IOException {
            return from.readBoolean() ? (Double) from.readDouble() : null;
        }

        private LocalDate date() throws IOException {
            long day = from.readLong();
            return day == Long.MIN_VALUE ? null : LocalDate.ofEpochDay(day);
        }

        private Instant moment() throws IOException {
            return Instant.ofEpochSecond(from.readLong(), from.readInt());
        }

        private BigDecimal decimal() throws IOException {
            String text = text();
            return text == null ? null : new BigDecimal(text);
        }

        private String text() throws IOException {
            byte[] bytes = bytes();
            return bytes == null ? null : new String(bytes, StandardCharsets.UTF_8);
        }

        private byte[] bytes() throws IOException {
            int length = from.readInt();
            return length < 0 ? null : from.readNBytes(length);
        }
    }
}
