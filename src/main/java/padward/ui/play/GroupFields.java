package padward.ui.play;

import javafx.geometry.Pos;
import javafx.scene.control.Button;
import javafx.scene.control.TextField;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;

/** The fields for the nets and pads whose negotiation is played. */
final class GroupFields extends VBox {
    GroupFields(StepsModel steps) {
        super(6);
        TextField nets = new TextField();
        nets.setId("steps-nets");
        nets.setPromptText("nets, such as pump/level/sample[*]");
        nets.setAccessibleText(
                "Nets to bring out together: names or patterns, separated by commas");
        TextField pads = new TextField();
        pads.setId("steps-pads");
        pads.setPromptText("pads, such as J1.*");
        pads.setAccessibleText("Pads to use: names or patterns, separated by commas");
        Button route =
                StepsView.button(
                        "group",
                        "Route together",
                        "Routes the nets together and records the rounds",
                        () -> steps.recordings().recordGroup(nets.getText(), pads.getText()));
        HBox.setHgrow(nets, Priority.ALWAYS);
        HBox row = new HBox(6, nets, pads, route);
        row.setAlignment(Pos.CENTER_LEFT);
        Button example =
                StepsView.button(
                        "example",
                        "Worked example",
                        "Opens a tiny invented design in which three nets want the same wires",
                        () -> {
                            nets.setText(Recordings.EXAMPLE_NETS);
                            pads.setText(Recordings.EXAMPLE_PADS);
                            steps.playWorkedExample();
                        });
        getChildren().addAll(row, example);
    }
}
