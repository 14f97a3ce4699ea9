package org.wearledger.intake;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;
import java.util.function.IntFunction;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import org.openjdk.jmh.infra.Blackhole;

/** The same thousand records in the report form and under names, units and times of an export: a mapping may cost at most 1.3 times. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Warmup(iterations = 3, time = 2)
@Measurement(iterations = 5, time = 2)
@Fork(2)
public class MappedBenchmark {
    private static final int RECORDS = 1_000;
    private static final String FIGURES = ",306,100,10,20,13184670,542968750,140636479,2961135290,11575,466,2100,6,0,0";
    private static final String HEADINGS = "compositeTemperatureKelvin,availableSparePercent,availableSpareThresholdPercent,percentageUsed,dataUnitsRead,dataUnitsWritten,hostReadCommands,"
        + "hostWriteCommands,controllerBusyMinutes,powerCycles,powerOnHours,unsafeShutdowns,mediaAndDataIntegrityErrors,errorLogEntries";
    private static final String WHOSE = "\"collectedAt\":{\"from\":\"%sat\",\"format\":\"FORMAT\"},\"machine.id\":\"%shost\",\"machine.site\":\"%splace\",\"machine.memoryBytes\":{\"from\":\"%sram\",\"unit\":\"GiB\"},"
        + "\"drive.serial\":\"%ssn\",\"drive.model\":\"%skind\",\"drive.capacityBytes\":{\"from\":\"%ssize\",\"unit\":\"GB\"}";

    /** In what form. */
    @Param({"json", "jsonMapped", "jsonMappedEpoch", "jsonInside", "csv", "csvMapped", "csvMappedEpoch", "csvMappedWindows1252"})
    public String form;

    private ReportFile file;
    private FieldMapping mapping;

    /** Makes the input. */
    @Setup
    public void make() throws IOException {
        boolean json = form.startsWith("json");
        boolean mapped = form.contains("Mapped") || form.endsWith("Inside");
        boolean epoch = form.endsWith("Epoch");
        String[] names = HEADINGS.split(",");
        String[] values = FIGURES.substring(1).split(",");
        String at = epoch ? "1736155800" : mapped ? "06.01.2025 09:30" : "2025-01-06T09:30:00Z";
        String figures = IntStream.range(0, names.length).mapToObj(i -> "\"" + (mapped ? "f" + i : names[i]) + "\":" + values[i]).collect(Collectors.joining(","));
        IntFunction<String> inJson = i -> mapped ? "{\"at\":\"" + at + "\",\"host\":\"LT-" + i + "\",\"place\":\"North\",\"ram\":8,\"sn\":\"VE" + i + "\",\"kind\":\"Velkan D2\",\"size\":256," + figures + "}"
            : "{\"schemaVersion\":\"1.0\",\"collectedAt\":\"" + at + "\",\"machine\":{\"id\":\"LT-" + i + "\",\"site\":\"North\",\"memoryBytes\":8589934592},\"drive\":{\"serial\":\"VE" + i
                + "\",\"model\":\"Velkan D2\",\"capacityBytes\":256060514304},\"health\":{" + figures + "}}";
        IntFunction<String> inCsv = i -> (mapped ? "" : "1.0,") + at + ",LT-" + i + ",North," + (mapped ? "8" : "8589934592") + ",VE" + i + ",Velkan D2," + (mapped ? "256" : "256060514304") + FIGURES;
        String header = mapped ? "at,host,place,ram,sn,kind,size," + IntStream.range(0, names.length).mapToObj(i -> "f" + i).collect(Collectors.joining(","))
            : "schemaVersion,collectedAt,machine.id,machine.site,machine.memoryBytes,drive.serial,drive.model,drive.capacityBytes,health." + HEADINGS.replace(",", ",health.");
        String records = IntStream.range(0, RECORDS).mapToObj(json ? inJson : inCsv).collect(Collectors.joining(form.endsWith("Inside") ? ",\n" : "\n"));
        String text = form.endsWith("Inside") ? "{\"devices\":[" + records + "]}" : json ? records : header + "\n" + records;
        Path path = Files.write(Files.createTempFile("bench", form.endsWith("Inside") ? ".json" : json ? ".jsonl" : ".csv"), text.getBytes(StandardCharsets.UTF_8));
        path.toFile().deleteOnExit();
        file = new ReportFile(path.toString(), path.toString());
        String pointer = json ? "/" : "";
        Path document = Files.writeString(Files.createTempFile("bench", ".map"), "{" + (form.endsWith("Inside") ? "\"records\":\"/devices\"," : form.endsWith("1252") ? "\"encoding\":\"windows-1252\"," : "")
            + "\"fields\":{" + WHOSE.replace("%s", pointer).replace("FORMAT", epoch ? "epochSeconds" : "dd.MM.yyyy HH:mm") + ","
            + IntStream.range(0, names.length).mapToObj(i -> "\"health." + names[i] + "\":\"" + pointer + "f" + i + "\"").collect(Collectors.joining(",")) + "}}");
        document.toFile().deleteOnExit();
        mapping = mapped ? FieldMapping.load(document) : FieldMapping.none();
        if (WholeFile.read(file, mapping).values().size() != RECORDS) {
            throw new IllegalStateException(WholeFile.read(file, mapping).problems().get(0).toString());
        }
    }

    /** A thousand records; divide by a thousand. */
    @Benchmark
    public void readThousand(Blackhole readings) throws IOException {
        try (ReportReader reader = new ReportReader(ReportPart.whole(file), mapping)) {
            reader.forEachRemaining(readings::consume);
        }
    }
}
