//! A workbench over a new house in a folder of its own, asked without a network.

use axum::Router;
use axum::body::{Body, to_bytes};
use axum::http::{HeaderMap, Method, Request, StatusCode};
use house::folder::{self, House};
use house::history::Act;
use house::settings::Settings;
use record::language::Units;
use tempfile::TempDir;
use tower::ServiceExt;

/// The address that the browser is told.
pub(crate) const HOST: &str = "127.0.0.1:8467";

/// A house with its workbench.
pub(crate) struct Site {
    pub(crate) house: House,
    router: Router,
    _folder: TempDir,
}

/// What came back.
pub(crate) struct Answer {
    pub(crate) status: StatusCode,
    pub(crate) headers: HeaderMap,
    pub(crate) body: String,
}

impl Answer {
    /// Where it leads on to.
    pub(crate) fn leads_to(&self) -> &str {
        assert_eq!(self.status, StatusCode::SEE_OTHER, "{}", self.body);
        self.headers["location"].to_str().unwrap()
    }
}

/// Most bytes of an answer that a test reads.
const MOST_READ: usize = 32 << 20;

impl Site {
    /// An empty house.
    pub(crate) fn new() -> Self {
        let folder = TempDir::new().unwrap();
        let settings = Settings {
            name: "The Test House".into(),
            units: Units::METRIC,
            keeper: "Wren".into(),
            postgres: None,
            site: None,
            address: None,
            law: house::lots::law::Law::default(),
            minimum: None,
            sells_to: None,
        };
        let act = Act { who: "Wren".into(), at: jiff::Timestamp::UNIX_EPOCH, why: None };
        let house = folder::create(&folder.path().join("house"), &settings, &act).unwrap();
        let router = workbench::router(&house);
        Self { house, router, _folder: folder }
    }

    /// A house with three varieties, of which one has fruit.
    pub(crate) async fn with_fruit() -> Self {
        let site = Self::new();
        site.take(
            "varieties.csv",
            "Variety,Also known as\nMarl,\nDrip Stone,Dripping Stone\nHalf <b>penny</b>,\n",
        )
        .await;
        let mut fruit = String::from("Variety,Date,Plant,Weight (g),Length (mm),Width (mm)\n");
        for plant in 1..=4 {
            for day in 1..=5 {
                fruit.push_str(&format!("Marl,2024-08-{day:02},{plant},{}.5,60,70\n", 150 + day + plant));
            }
        }
        site.take("fruit.csv", &fruit).await;
        site
    }

    /// Sends any request.
    pub(crate) async fn ask(&self, request: Request<Body>) -> Answer {
        let answer = self.router.clone().oneshot(request).await.unwrap();
        let (parts, body) = answer.into_parts();
        let body = to_bytes(body, MOST_READ).await.unwrap();
        let body = String::from_utf8_lossy(&body).into_owned();
        Answer { status: parts.status, headers: parts.headers, body }
    }

    /// Asks for a page.
    pub(crate) async fn get(&self, address: &str) -> Answer {
        let request = Request::get(address).header("host", HOST).body(Body::empty()).unwrap();
        self.ask(request).await
    }

    /// Sends a form as a page of the workbench does.
    pub(crate) async fn post(&self, address: &str, form: &[(&str, &str)]) -> Answer {
        let encode = |text: &str| {
            percent_encoding::utf8_percent_encode(text, percent_encoding::NON_ALPHANUMERIC).to_string()
        };
        let pairs: Vec<String> =
            form.iter().map(|(name, value)| format!("{}={}", encode(name), encode(value))).collect();
        let request = own(Method::POST, address)
            .header("content-type", "application/x-www-form-urlencoded")
            .body(Body::from(pairs.join("&")))
            .unwrap();
        self.ask(request).await
    }

    /// Sends files as the form of Bring in does.
    pub(crate) async fn send(&self, files: &[(&str, &[u8])]) -> Answer {
        let mut body = Vec::new();
        for (name, bytes) in files {
            let head = format!(
                "--part\r\nContent-Disposition: form-data; name=\"files\"; filename=\"{name}\"\r\nContent-Type: text/csv\r\n\r\n"
            );
            body.extend_from_slice(head.as_bytes());
            body.extend_from_slice(bytes);
            body.extend_from_slice(b"\r\n");
        }
        body.extend_from_slice(b"--part--\r\n");
        let request = own(Method::POST, "/bring-in")
            .header("content-type", "multipart/form-data; boundary=part")
            .body(Body::from(body))
            .unwrap();
        self.ask(request).await
    }

    /// Sends one file and takes it in; the page that follows.
    pub(crate) async fn take(&self, name: &str, text: &str) -> Answer {
        let stack = self.send(&[(name, text.as_bytes())]).await.leads_to().to_owned();
        let taken = self.post(&stack, &[("do", "take")]).await;
        assert_eq!(taken.leads_to(), stack);
        self.get(&stack).await
    }
}

/// A request as a page of the workbench sends it: under our referrer policy its origin is `null`.
fn own(method: Method, address: &str) -> axum::http::request::Builder {
    Request::builder()
        .method(method)
        .uri(address)
        .header("host", HOST)
        .header("sec-fetch-site", "same-origin")
        .header("origin", "null")
}
