package org.wearledger.cli;

import picocli.CommandLine.IVersionProvider;

/** The version that the build wrote into the jar's manifest. */
final class Version implements IVersionProvider {
    static String text() {
        String version = Version.class.getPackage().getImplementationVersion();
        return version == null ? "unpackaged" : version;
    }

    @Override
    public String[] getVersion() {
        return new String[] {"wearledger " + text()};
    }
}
