package org.wearledger.intake;

import java.math.BigInteger;
import org.wearledger.model.Attachment;
import org.wearledger.model.Drive;
import org.wearledger.model.Health;
import org.wearledger.model.HealthField;
import org.wearledger.model.Machine;
import org.wearledger.model.Reading;
import org.wearledger.model.SourcePlace;

/** A reading as a row of some two hundred bytes, to travel between Spark's stages: its values in one order, without names. */
public final class PackedReading {
    private static final Attachment[] ATTACHMENTS = Attachment.values();

    private PackedReading() {
    }

    /** The reading in bytes; {@link #unpack} gives an equal one. */
    public static byte[] pack(Reading r) {
        ValueWriter out = new ValueWriter();
        write(r, out);
        return out.bytes();
    }

    /** What {@link #pack} was given. */
    public static Reading unpack(byte[] packed) {
        ValueReader in = new ValueReader(packed);
        Reading reading = read(in);
        if (in.hasMore()) {
            throw new IllegalArgumentException("a packed reading of " + packed.length + " bytes ends at " + in.at());
        }
        return reading;
    }

    /** Writes the reading; {@link #read} gives an equal one. */
    public static void write(Reading r, ValueWriter out) {
        out.text(r.source().file());
        out.text(r.source().place());
        out.whole(r.source().index());
        out.moment(r.collectedAt());
        Machine m = r.machine();
        out.text(m.id());
        out.text(m.assetTag());
        out.text(m.site());
        out.text(m.costCentre());
        out.text(m.model());
        out.wholeOrNull(m.memoryBytes());
        out.wholeOrNull(m.swapUsedBytes());
        out.date(m.inServiceOn());
        out.date(m.userSince());
        Drive d = r.drive();
        out.text(d.serial());
        out.text(d.model());
        out.text(d.firmware());
        out.wholeOrNull(d.capacityBytes());
        out.whole(d.attachment().ordinal());
        write(r.health(), out);
    }

    /** What {@link #write} was given. */
    public static Reading read(ValueReader in) {
        String file = in.text();
        String place = in.text();
        SourcePlace source = new SourcePlace(file, in.whole(), place);
        return new Reading(source, in.moment(), new Machine(in.text(), in.text(), in.text(), in.text(), in.text(), in.wholeOrNull(), in.wholeOrNull(), in.date(), in.date()),
            new Drive(in.text(), in.text(), in.text(), in.wholeOrNull(), ATTACHMENTS[(int) in.whole()]), health(in));
    }

    /** Which fields are reported, their values, the sensors, and last the counters beyond a {@code long}. */
    private static void write(Health h, ValueWriter out) {
        out.whole(h.reported());
        int large = 0;
        for (HealthField field : HealthField.ALL) {
            if (!field.isList() && h.has(field)) {
                out.whole(h.value(field));
                large += h.isLarge(field) ? 1 : 0;
            }
        }
        out.whole(h.sensors());
        for (int i = 0; i < h.sensors(); i++) {
            out.whole(h.sensor(i));
        }
        out.whole(large);
        if (large > 0) {
            HealthField.ALL.stream().filter(h::isLarge).forEach(field -> {
                out.whole(field.ordinal());
                out.text(h.exact(field).toString());
            });
        }
    }

    private static Health health(ValueReader in) {
        Health.Builder health = Health.builder();
        int reported = (int) in.whole();
        for (HealthField field : HealthField.ALL) {
            if ((reported & 1 << field.ordinal()) != 0) {
                health.set(field, in.whole());
            }
        }
        int[] sensors = new int[(int) in.whole()];
        for (int i = 0; i < sensors.length; i++) {
            sensors[i] = (int) in.whole();
        }
        health.sensors(sensors);
        for (long large = in.whole(); large > 0; large--) {
            HealthField field = HealthField.ALL.get((int) in.whole());
            health.set(field, new BigInteger(in.text()));
        }
        return health.build();
    }
}
