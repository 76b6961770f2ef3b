//! tmp
mod sample_house;
#[test]
fn tmp() {
    for (n, paper, name) in [(130, publish::catalogue::Paper::A4, "a4"), (40, publish::catalogue::Paper::UsLetter, "us")] {
        let t = std::time::Instant::now();
        let pdf = publish::catalogue::catalogue(&sample_house::house(n), paper).unwrap();
        eprintln!("{} bytes {:?}", pdf.len(), t.elapsed());
        std::fs::write(format!("/tmp/locule_{name}.pdf"), pdf).unwrap();
    }
}
