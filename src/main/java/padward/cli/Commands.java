package padward.cli;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Supplier;
import padward.cli.command.ApplyCommand;
import padward.cli.command.AskAllCommand;
import padward.cli.command.AskCommand;
import padward.cli.command.BoardCommand;
import padward.cli.command.BusCommand;
import padward.cli.command.ChangesCommand;
import padward.cli.command.CheckCommand;
import padward.cli.command.DeskewCommand;
import padward.cli.command.DiffCommand;
import padward.cli.command.ExerciseCommand;
import padward.cli.command.ExpandCommand;
import padward.cli.command.ExportCommand;
import padward.cli.command.ImportCommand;
import padward.cli.command.KeepCommand;
import padward.cli.command.LeadCommand;
import padward.cli.command.LessonCommand;
import padward.cli.command.MakeCommand;
import padward.cli.command.NetsCommand;
import padward.cli.command.PadsCommand;
import padward.cli.command.PinsCommand;
import padward.cli.command.PlaceRouteCommand;
import padward.cli.command.SheetCommand;
import padward.cli.command.SurveyCommand;
import padward.cli.command.UndoCommand;
import padward.cli.command.WindowCommand;
import padward.cli.copies.CopiesCommand;
import padward.cli.ledger.LedgerCommand;
import padward.cli.manners.HelpCommand;
import padward.cli.wanted.WantedCommand;
import padward.cli.watch.WatchCommand;

/** The commands by name, in the order of the help; each is made when it is called. */
final class Commands {
    private static final Map<String, Supplier<Object>> BY_NAME = new LinkedHashMap<>();

    static {
        BY_NAME.put("ask", AskCommand::new);
        BY_NAME.put("ask-all", AskAllCommand::new);
        BY_NAME.put("survey", SurveyCommand::new);
        BY_NAME.put("bus", BusCommand::new);
        BY_NAME.put("keep", KeepCommand::new);
        BY_NAME.put("watch", WatchCommand::new);
        BY_NAME.put("apply", ApplyCommand::new);
        BY_NAME.put("board", BoardCommand::new);
        BY_NAME.put("lead", LeadCommand::new);
        BY_NAME.put("undo", UndoCommand::new);
        BY_NAME.put("ledger", LedgerCommand::new);
        BY_NAME.put("wanted", WantedCommand::new);
        BY_NAME.put("diff", DiffCommand::new);
        BY_NAME.put("sheet", SheetCommand::new);
        BY_NAME.put("changes", ChangesCommand::new);
        BY_NAME.put("deskew", DeskewCommand::new);
        BY_NAME.put("nets", NetsCommand::new);
        BY_NAME.put("pads", PadsCommand::new);
        BY_NAME.put("check", CheckCommand::new);
        BY_NAME.put("import", ImportCommand::new);
        BY_NAME.put("export", ExportCommand::new);
        BY_NAME.put("place-route", PlaceRouteCommand::new);
        BY_NAME.put("pins", PinsCommand::new);
        BY_NAME.put("expand", ExpandCommand::new);
        BY_NAME.put("make", MakeCommand::new);
        BY_NAME.put("lesson", LessonCommand::new);
        BY_NAME.put("exercise", ExerciseCommand::new);
        BY_NAME.put("copies", CopiesCommand::new);
        BY_NAME.put("window", WindowCommand::new);
        BY_NAME.put("help", HelpCommand::new);
    }

    private Commands() {}

    /** Their names, which those of their annotations repeat. */
    static List<String> names() {
        return List.copyOf(BY_NAME.keySet());
    }

    /** A command ready to be called. */
    static Object make(String name) {
        return BY_NAME.get(name).get();
    }
}
