package org.wearledger.job;

import com.fasterxml.jackson.annotation.JsonFormat;
import com.fasterxml.jackson.annotation.JsonTypeInfo;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.databind.DeserializationContext;
import com.fasterxml.jackson.databind.ObjectReader;
import com.fasterxml.jackson.databind.ObjectWriter;
import com.fasterxml.jackson.databind.SerializerProvider;
import com.fasterxml.jackson.databind.deser.std.StdDeserializer;
import com.fasterxml.jackson.databind.introspect.Annotated;
import com.fasterxml.jackson.databind.introspect.JacksonAnnotationIntrospector;
import com.fasterxml.jackson.databind.module.SimpleModule;
import com.fasterxml.jackson.databind.ser.std.StdSerializer;
import com.fasterxml.jackson.dataformat.smile.databind.SmileMapper;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.time.Instant;
import java.time.LocalDate;
import org.wearledger.intake.PackedReading;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.Projection;
import org.wearledger.model.Reading;

/**
 * A drive's assessment as bytes, to come back from Spark's tasks: records as arrays of their values, in the Smile format (binary
 * JSON). As serialised Java objects hundreds of thousands of them cost more than to work them out.
 */
final class PackedAssessment {
    private static final SmileMapper SMILE = mapper();
    private static final ObjectWriter WRITER = SMILE.writerFor(DriveAssessment.class);
    private static final ObjectReader READER = SMILE.readerFor(DriveAssessment.class);

    private PackedAssessment() {
    }

    static byte[] pack(DriveAssessment assessment) {
        try {
            return WRITER.writeValueAsBytes(assessment);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** What {@link #pack} was given. */
    static DriveAssessment unpack(byte[] packed) {
        try {
            return READER.readValue(packed);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Which of its forms a projection has goes with it. */
    @JsonTypeInfo(use = JsonTypeInfo.Id.CLASS, include = JsonTypeInfo.As.WRAPPER_ARRAY)
    private interface WithItsForm {
    }

    private static final class RecordsAsArrays extends JacksonAnnotationIntrospector {
        private static final long serialVersionUID = 1;

        @Override
        public JsonFormat.Value findFormat(Annotated annotated) {
            return annotated.getRawType().isRecord() ? JsonFormat.Value.forShape(JsonFormat.Shape.ARRAY) : super.findFormat(annotated);
        }
    }

    private static SmileMapper mapper() {
        SimpleModule forms = new SimpleModule();
        form(forms, Reading.class, (reading, out) -> out.writeBinary(PackedReading.pack(reading)), in -> PackedReading.unpack(in.getBinaryValue()));
        form(forms, Instant.class, (instant, out) -> out.writeString(instant.toString()), in -> Instant.parse(in.getText()));
        form(forms, LocalDate.class, (date, out) -> out.writeNumber(date.toEpochDay()), in -> LocalDate.ofEpochDay(in.getLongValue()));
        return SmileMapper.builder().annotationIntrospector(new RecordsAsArrays()).addMixIn(Projection.class, WithItsForm.class).addModule(forms).build();
    }

    private interface Writing<T> {
        void write(T value, JsonGenerator out) throws IOException;
    }

    private interface Parsing<T> {
        T read(JsonParser in) throws IOException;
    }

    private static <T> void form(SimpleModule forms, Class<T> type, Writing<T> writing, Parsing<T> parsing) {
        forms.addSerializer(type, new StdSerializer<T>(type) {
            private static final long serialVersionUID = 1;

            @Override
            public void serialize(T value, JsonGenerator out, SerializerProvider provider) throws IOException {
                writing.write(value, out);
            }
        });
        forms.addDeserializer(type, new StdDeserializer<T>(type) {
            private static final long serialVersionUID = 1;

            @Override
            public T deserialize(JsonParser in, DeserializationContext context) throws IOException {
                return parsing.read(in);
            }
        });
    }
}
