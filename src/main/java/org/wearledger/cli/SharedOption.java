package org.wearledger.cli;

import org.wearledger.report.Access;
import picocli.CommandLine.Option;

/** Who may read what is written. */
final class SharedOption {
    @Option(names = "--shared", description = "Let others on this machine read the output, as your umask says; else you alone can.")
    private boolean shared;

    Access access() {
        return shared ? Access.SHARED : Access.OWNER;
    }
}
