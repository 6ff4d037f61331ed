package padward.cli.manners;

import padward.base.Version;
import picocli.CommandLine;

/** What {@code --version} prints. */
public final class BuiltVersion implements CommandLine.IVersionProvider {
    @Override
    public String[] getVersion() {
        return new String[] {"padward " + Version.text()};
    }
}
