package padward.cli.option;

import java.io.PrintWriter;
import padward.cli.output.TextTable;
import picocli.CommandLine;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Option;

/** How a list is printed: in columns, as JSON or as CSV. */
public final class ListFormOption {
    @ArgGroup(exclusive = true)
    private Form form = new Form();

    private static final class Form {
        @Option(names = "--json", description = "Prints JSON.")
        private boolean json;

        @Option(
                names = "--csv",
                description =
                        "Prints the list as CSV (RFC 4180) for a spreadsheet, and remarks as messages.")
        private boolean csv;
    }

    /** Whether it is JSON. */
    public boolean isJson() {
        return form.json;
    }

    /** Whether it is CSV. */
    public boolean isCsv() {
        return form.csv;
    }

    /** Prints a table in columns or as CSV; returns where remarks on it belong. */
    public PrintWriter print(TextTable table, CommandLine command) {
        if (form.csv) {
            table.printCsv(command.getOut());
            return command.getErr();
        }
        table.print(command.getOut());
        return command.getOut();
    }
}
