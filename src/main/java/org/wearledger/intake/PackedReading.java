package org.wearledger.intake;

import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.dataformat.smile.SmileFactory;
import com.fasterxml.jackson.dataformat.smile.SmileGenerator;
import com.fasterxml.jackson.dataformat.smile.SmileParser;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.math.BigInteger;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.wearledger.model.Attachment;
import org.wearledger.model.Drive;
import org.wearledger.model.Health;
import org.wearledger.model.Machine;
import org.wearledger.model.Reading;
import org.wearledger.model.SourcePlace;

/**
 * A reading as a few hundred bytes, to travel between Spark's stages: its values in one order, without names, in the Smile format
 * (binary JSON). Serialised Java objects take several times the room and many times the work; so does a mapper of objects.
 */
public final class PackedReading {
    private static final SmileFactory SMILE = SmileFactory.builder().disable(SmileGenerator.Feature.WRITE_HEADER)
        .disable(SmileParser.Feature.REQUIRE_HEADER).build();
    private static final int USUAL_BYTES = 320;
    private static final Attachment[] ATTACHMENTS = Attachment.values();

    private PackedReading() {
    }

    /** The reading in Smile, about 200 bytes; {@link #unpack} gives an equal one. */
    public static byte[] pack(Reading r) {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream(USUAL_BYTES);
        try (JsonGenerator out = SMILE.createGenerator(bytes)) {
            SourcePlace s = r.source();
            Machine m = r.machine();
            Drive d = r.drive();
            Health h = r.health();
            text(out, s.file(), s.place());
            out.writeNumber(s.index());
            out.writeNumber(r.collectedAt().getEpochSecond());
            out.writeNumber(r.collectedAt().getNano());
            text(out, m.id(), m.assetTag(), m.site(), m.costCentre(), m.model());
            whole(out, m.memoryBytes(), m.swapUsedBytes(), day(m.inServiceOn()), day(m.userSince()));
            text(out, d.serial(), d.model(), d.firmware());
            whole(out, d.capacityBytes());
            out.writeNumber(d.attachment().ordinal());
            small(out, h.criticalWarning(), h.compositeTemperatureKelvin(), h.availableSparePercent(), h.availableSpareThresholdPercent(),
                h.percentageUsed(), h.enduranceGroupCriticalWarningSummary());
            counter(out, h.dataUnitsRead(), h.dataUnitsWritten(), h.hostReadCommands(), h.hostWriteCommands(), h.controllerBusyMinutes(),
                h.powerCycles(), h.powerOnHours(), h.unsafeShutdowns(), h.mediaAndDataIntegrityErrors(), h.errorLogEntries());
            whole(out, h.warningTemperatureMinutes(), h.criticalTemperatureMinutes());
            small(out, h.temperatureSensorsKelvin().size());
            small(out, h.temperatureSensorsKelvin().toArray(Integer[]::new));
            whole(out, h.thermalManagement1Transitions(), h.thermalManagement2Transitions(), h.thermalManagement1Seconds(),
                h.thermalManagement2Seconds());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return bytes.toByteArray();
    }

    /** What {@link #pack} was given. */
    public static Reading unpack(byte[] packed) {
        return unpack(packed, 0, packed.length);
    }

    /** What {@link #pack} was given, from {@code length} of the bytes. */
    public static Reading unpack(byte[] bytes, int from, int length) {
        try (JsonParser parser = SMILE.createParser(bytes, from, length)) {
            Values in = new Values(parser);
            String file = in.text();
            String place = in.text();
            SourcePlace source = new SourcePlace(file, in.whole(), place);
            Instant collectedAt = Instant.ofEpochSecond(in.whole(), in.whole());
            Machine machine = new Machine(in.text(), in.text(), in.text(), in.text(), in.text(), in.whole(), in.whole(), in.date(), in.date());
            Drive drive = new Drive(in.text(), in.text(), in.text(), in.whole(), ATTACHMENTS[in.small()]);
            Health health = new Health(in.small(), in.small(), in.small(), in.small(), in.small(), in.small(),
                in.counter(), in.counter(), in.counter(), in.counter(), in.counter(), in.counter(), in.counter(), in.counter(), in.counter(),
                in.counter(), in.whole(), in.whole(), in.smalls(), in.whole(), in.whole(), in.whole(), in.whole());
            return new Reading(source, collectedAt, machine, drive, health);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static Long day(LocalDate date) {
        return date == null ? null : (Long) date.toEpochDay();
    }

    private static void text(JsonGenerator out, String... values) throws IOException {
        for (String value : values) {
            out.writeString(value);
        }
    }

    private static void small(JsonGenerator out, Integer... values) throws IOException {
        for (Integer value : values) {
            if (value == null) {
                out.writeNull();
            } else {
                out.writeNumber((int) value);
            }
        }
    }

    private static void whole(JsonGenerator out, Long... values) throws IOException {
        for (Long value : values) {
            if (value == null) {
                out.writeNull();
            } else {
                out.writeNumber((long) value);
            }
        }
    }

    private static void counter(JsonGenerator out, BigInteger... values) throws IOException {
        for (BigInteger value : values) {
            if (value != null && value.bitLength() < Long.SIZE) {
                out.writeNumber(value.longValue());
            } else {
                out.writeNumber(value);
            }
        }
    }

    /** The values one after another; {@code null} where none was written. */
    private record Values(JsonParser parser) {
        private boolean isNull() throws IOException {
            JsonToken token = parser.nextToken();
            if (token == null) {
                throw new IOException("a packed reading ends early");
            }
            return token == JsonToken.VALUE_NULL;
        }

        String text() throws IOException {
            return isNull() ? null : parser.getText();
        }

        Long whole() throws IOException {
            return isNull() ? null : (Long) parser.getLongValue();
        }

        Integer small() throws IOException {
            return isNull() ? null : (Integer) parser.getIntValue();
        }

        LocalDate date() throws IOException {
            return isNull() ? null : LocalDate.ofEpochDay(parser.getLongValue());
        }

        BigInteger counter() throws IOException {
            if (isNull()) {
                return null;
            }
            return parser.getNumberType() == JsonParser.NumberType.BIG_INTEGER ? parser.getBigIntegerValue() : BigInteger.valueOf(parser.getLongValue());
        }

        List<Integer> smalls() throws IOException {
            int size = small();
            List<Integer> values = new ArrayList<>(size);
            for (int i = 0; i < size; i++) {
                values.add(small());
            }
            return values;
        }
    }
}
