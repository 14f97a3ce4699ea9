package org.wearledger.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;

/** Where Spark and the workbook put what does not fit into memory. Spark ends the whole program when it cannot write there: it is tried first. */
final class TemporaryFolders {
    private static final String OF_JAVA = "java.io.tmpdir";
    private static final String OF_SPARK = "spark.local.dir";
    private static final String OF_SPARK_BY_ENVIRONMENT = "SPARK_LOCAL_DIRS";

    private TemporaryFolders() {
    }

    /** @throws MachineException when nothing can be written into one of them */
    static void require() throws MachineException {
        require(System.getProperty(OF_JAVA), "-D" + OF_JAVA);
        String ofSpark = System.getenv().getOrDefault(OF_SPARK_BY_ENVIRONMENT, System.getProperty(OF_SPARK, ""));
        for (String folder : Stream.of(ofSpark.split(",")).map(String::strip).filter(name -> !name.isEmpty()).toList()) {
            require(folder, "-D" + OF_SPARK);
        }
    }

    private static void require(String folder, String option) throws MachineException {
        try {
            Files.delete(Files.createTempFile(Files.createDirectories(Path.of(folder)), "wearledger-try-", null));
        } catch (IOException e) {
            throw new MachineException("no temporary files can be written in " + folder + ": make room or give permission there, or name another folder by WEARLEDGER_JAVA_OPTS="
                + option + "=FOLDER before the command", e);
        }
    }
}
