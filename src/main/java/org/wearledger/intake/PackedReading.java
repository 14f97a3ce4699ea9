package org.wearledger.intake;

import com.fasterxml.jackson.annotation.JsonFormat;
import com.fasterxml.jackson.databind.ObjectReader;
import com.fasterxml.jackson.databind.ObjectWriter;
import com.fasterxml.jackson.dataformat.smile.databind.SmileMapper;
import com.fasterxml.jackson.datatype.jsr310.JavaTimeModule;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.time.Instant;
import java.util.List;
import org.wearledger.model.Drive;
import org.wearledger.model.Health;
import org.wearledger.model.Machine;
import org.wearledger.model.Reading;
import org.wearledger.model.SourcePlace;

/**
 * A reading as a few hundred bytes, to travel between Spark's stages: values without names, in the Smile format (binary JSON).
 * Serialised Java objects take several times the room and many times the work.
 */
public final class PackedReading {
    private static final SmileMapper SMILE = mapper();
    private static final ObjectWriter WRITER = SMILE.writerFor(Flat.class);
    private static final ObjectReader READER = SMILE.readerFor(Flat.class);

    /** The instant in two exact parts. */
    record Flat(SourcePlace source, long epochSecond, int nano, Machine machine, Drive drive, Health health) {
    }

    private PackedReading() {
    }

    private static SmileMapper mapper() {
        SmileMapper mapper = SmileMapper.builder().addModule(new JavaTimeModule()).build();
        for (Class<?> part : List.of(Flat.class, SourcePlace.class, Machine.class, Drive.class, Health.class)) {
            mapper.configOverride(part).setFormat(JsonFormat.Value.forShape(JsonFormat.Shape.ARRAY));
        }
        return mapper;
    }

    public static byte[] pack(Reading r) {
        try {
            return WRITER.writeValueAsBytes(new Flat(r.source(), r.collectedAt().getEpochSecond(), r.collectedAt().getNano(), r.machine(), r.drive(),
                r.health()));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** What {@link #pack} was given. */
    public static Reading unpack(byte[] packed) {
        return unpack(packed, 0, packed.length);
    }

    /** What {@link #pack} was given, from {@code length} of the bytes. */
    public static Reading unpack(byte[] bytes, int from, int length) {
        try {
            Flat flat = READER.readValue(bytes, from, length);
            return new Reading(flat.source, Instant.ofEpochSecond(flat.epochSecond, flat.nano), flat.machine, flat.drive, flat.health);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
