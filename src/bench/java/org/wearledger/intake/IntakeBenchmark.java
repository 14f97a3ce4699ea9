package org.wearledger.intake;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import org.openjdk.jmh.infra.Blackhole;
import org.wearledger.model.Health;
import org.wearledger.model.Reading;
import org.wearledger.stats.RateBelief;

/** The log page decoder, the parser of JSON Lines (a thousand records), packing, and the probability that a projection asks for most. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Warmup(iterations = 3, time = 2)
@Measurement(iterations = 5, time = 2)
@Fork(2)
public class IntakeBenchmark {
    private static final String REPORT = "{\"schemaVersion\":\"1.0\",\"collectedAt\":\"2025-01-06T09:30:00Z\",\"machine\":{\"id\":\"LT-%05d\","
        + "\"site\":\"North\",\"model\":\"Torvane 15\",\"memoryBytes\":8589934592,\"inServiceOn\":\"2021-10-28\"},\"drive\":{\"serial\":\"VE7%07d\","
        + "\"model\":\"Velkan D2\",\"firmware\":\"2.11\",\"capacityBytes\":256060514304,\"attachment\":\"soldered\"},\"health\":{\"criticalWarning\":0,"
        + "\"compositeTemperatureKelvin\":306,\"availableSparePercent\":100,\"availableSpareThresholdPercent\":10,\"percentageUsed\":20,"
        + "\"dataUnitsRead\":13184670,\"dataUnitsWritten\":542968750,\"hostReadCommands\":140636479,\"hostWriteCommands\":2961135290,"
        + "\"controllerBusyMinutes\":11575,\"powerCycles\":466,\"powerOnHours\":2100,\"unsafeShutdowns\":6,\"mediaAndDataIntegrityErrors\":0,"
        + "\"errorLogEntries\":0}}\n";
    private static final int RECORDS = 1_000;

    private byte[] page;
    private ReportFile file;
    private Reading reading;
    private byte[] packed;
    private final RateBelief belief = new RateBelief(12.5, 0.4);

    /** Makes the inputs. */
    @Setup
    public void make() throws Exception {
        page = ByteBuffer.allocate(HealthLogPage.LENGTH_BYTES).order(ByteOrder.LITTLE_ENDIAN).put(5, (byte) 20).putLong(48, 542_968_750L).array();
        StringBuilder lines = new StringBuilder();
        for (int i = 0; i < RECORDS; i++) {
            lines.append(REPORT.formatted(i, i));
        }
        Path path = Files.write(Files.createTempFile("bench", ".jsonl"), lines.toString().getBytes(StandardCharsets.UTF_8));
        path.toFile().deleteOnExit();
        file = new ReportFile(path.toString(), path.toString());
        List<Reading> readings = new ArrayList<>(WholeFile.read(file, FieldMapping.none()).values());
        reading = readings.get(0);
        packed = PackedReading.pack(reading);
    }

    /** One log page of 512 bytes. */
    @Benchmark
    public Health decodeLogPage() {
        return HealthLogPage.decode(page).build();
    }

    /** A thousand records; divide by a thousand. */
    @Benchmark
    public void parseThousandLines(Blackhole readings) throws Exception {
        try (ReportReader reader = WholeFile.reader(file)) {
            reader.forEachRemaining(readings::consume);
        }
    }

    /** One reading to bytes. */
    @Benchmark
    public byte[] pack() {
        return PackedReading.pack(reading);
    }

    /** Bytes to one reading. */
    @Benchmark
    public Reading unpack() {
        return PackedReading.unpack(packed);
    }

    /** P(reached within 4 quarters). */
    @Benchmark
    public double probabilityOfReaching() {
        return belief.probabilityOfReaching(2.5, 4, 0.6);
    }
}
