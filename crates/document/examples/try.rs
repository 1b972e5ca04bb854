fn main(){ let d=std::fs::read(std::env::args().nth(1).unwrap()).unwrap();
 let t=std::time::Instant::now();
 match document::pdf::typesetter::typeset(d,"x",document::pdf::typesetter::Conformance::Accessible){Ok(b)=>std::fs::write(std::env::args().nth(2).unwrap(),b).unwrap(),Err(e)=>println!("{e}")}
 println!("{:?}",t.elapsed());}
