package org.wearledger.cli;

import java.io.PrintWriter;
import java.io.StringWriter;
import picocli.CommandLine;

/** One run of the program as from a shell. */
record Runs(int exitCode, String out, String err) {
    static Runs of(Object... args) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        CommandLine command = Main.commandLine().setOut(new PrintWriter(out)).setErr(new PrintWriter(err));
        String[] words = java.util.Arrays.stream(args).map(Object::toString).toArray(String[]::new);
        return new Runs(Main.execute(command, words), out.toString(), err.toString());
    }
}
