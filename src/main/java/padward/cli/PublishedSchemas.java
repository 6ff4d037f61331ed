package padward.cli;

import java.util.Map;
import java.util.TreeMap;
import padward.cli.form.AnswerForm;
import padward.cli.form.GroupForm;
import padward.cli.form.Reports;
import padward.cli.wanted.WantedReport;
import padward.cli.watch.WatchReport;
import padward.format.form.Form;
import padward.format.question.QuestionLines;

/** The JSON Schemas of everything that the commands print with {@code --json}. */
public final class PublishedSchemas {
    private PublishedSchemas() {}

    /** The texts of all schemas, each by the name of the format without its version. */
    public static Map<String, String> all() {
        Map<String, String> all = new TreeMap<>();
        put(all, "answer", "The answer to a question", AnswerForm.answer());
        put(all, "answers", "The answers to many questions", Reports.Answers.form());
        put(all, "line", "A line of ask --batch", Reports.Line.form());
        put(all, "survey", "All pads for one net", Reports.Ranked.form());
        put(all, "what-if", "An answer as if something were removed", Reports.whatIf());
        put(all, "bus", "A group of nets that are brought out together", GroupForm.form());
        put(all, "kept", "What was kept in a ledger", Reports.Kept.form());
        put(all, "undone", "What was removed from a ledger", Reports.Undone.form());
        put(all, "entries", "Entries of a ledger", Reports.Entries.form());
        put(all, "applied", "A changed copy of a design", Reports.Applied.form());
        put(all, "diff", "The differences between two designs", Reports.Compared.form());
        put(all, "watch", "A watch circuit", WatchReport.form());
        put(all, "wanted", "Wanted nets after a run", WantedReport.form());
        put(all, "checked", "What is in files", Reports.Checked.form());
        put(all, "pins", "Pins of a package", Reports.Pins.form());
        put(all, "leads", "The instrument's leads on a ledger's lines", Reports.Leads.form());
        put(all, "report", "What a command reports in lines", Reports.Lines.form());
        put(all, "nets", "Nets of a design", Reports.Nets.form());
        put(all, "pads", "Pads of a fabric", Reports.Pads.form());
        all.put("question", QuestionLines.schema());
        return all;
    }

    private static void put(Map<String, String> all, String name, String title, Form<?> form) {
        all.put(name, form.schema().toFile(title));
    }
}
