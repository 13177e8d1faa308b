package chainage.cli;

import picocli.CommandLine.IVersionProvider;

/** The version that the build wrote into the manifest. */
final class Version implements IVersionProvider {
    @Override
    public String[] getVersion() {
        String v = Version.class.getPackage().getImplementationVersion();
        return new String[] {"chainage " + (v == null ? "development build" : v)};
    }
}
